package sheet

import (
	"strings"
	"testing"
)

// sampleSheet is a made-up clip: two shots at 24 fps, numbered from 101, a
// figure in each, holds and moves that tile them.
func sampleSheet() *Sheet {
	s := &Sheet{
		Tool: Tool{"holdfast", "0.0.0"},
		Clip: Clip{
			Name: "lantern_v03.mp4", Width: 1920, Height: 1080, FPS: Rate{24, 1}, Frames: 72, FirstFrame: 101,
			SHA256:    strings.Repeat("0123456789abcdef", 4),
			SourceFPS: &Rate{30000, 1001}, VariableRate: true,
			Warnings: []string{"frames came at uneven times and were conformed to 24 fps"},
		},
		Settings: map[string]any{"still_share": 0.003, "hold_min_frames": 4},
		Shots: []Shot{
			{Start: 101, End: 148, Camera: Camera{Kind: "still", Zoom: 1}},
			{Start: 149, End: 172, Join: &Join{JoinDissolve, 143, 154}, Camera: Camera{Kind: "pan", TravelX: -120.4567, TravelY: 0.2, Zoom: 1}},
		},
		Figures: []Figure{
			{Shot: 1, Start: 101, End: 148, Height: 412.345, Method: ByPlate},
			{Shot: 2, Start: 149, End: 172, Height: 390, Method: ByMotion},
		},
		Beats: []Beat{
			NewHold(1, 1, 101, 112, HoldFrozen),
			NewMove(1, 1, 113, 128, 118, 1),
			NewHold(1, 1, 129, 148, HoldMoving),
			NewMove(2, 2, 149, 160, 155, 0.4375),
			NewHold(2, 2, 161, 172, HoldFrozen),
		},
		Exposure: []Exposure{
			{Shot: 1, Figure: 1, Start: 101, End: 148, Pattern: "ones", FramesPerDrawing: 1},
			{Shot: 2, Figure: 2, Start: 149, End: 172, Pattern: "twos", FramesPerDrawing: 2.04},
		},
		Repeats: &Repeats{Every: 5, First: 104},
		Notes: []Note{{
			Kind: "frozen-hold", Start: 161, End: 172, Weight: WeightLook, Text: "the figure freezes here for half a second",
			Measured: map[string]any{"frames": 12, "threshold": 12},
		}},
	}
	s.Curve.Motion = make([]float64, s.Clip.Frames)
	s.Curve.Camera = make([][4]float64, s.Clip.Frames)
	for i := range s.Curve.Camera {
		s.Curve.Camera[i][3] = 1
	}
	s.Curve.Motion[17] = 0.0212345678
	s.Beats[1].Texture = &Texture{Settle: 2, Spacing: spaced(2, 0, 0.8125)}
	s.Complete()
	return s
}

// oneFrame is the smallest clip there is.
func oneFrame() *Sheet {
	s := &Sheet{
		Tool: Tool{"holdfast", "0.0.0"},
		Clip: Clip{
			Name: "still.png", Width: 1, Height: 1, FPS: Rate{24000, 1001}, Frames: 1, FirstFrame: 1,
			SHA256: strings.Repeat("0", 64),
		},
		Shots: []Shot{{Start: 1, End: 1, Camera: Camera{Kind: "still", Zoom: 1}}},
		Beats: []Beat{NewHold(1, 0, 1, 1, HoldFrozen)},
		Curve: Curve{Motion: []float64{0}, Camera: [][4]float64{{0, 0, 0, 1}}},
	}
	s.Complete()
	return s
}

func TestSamplesAreSheets(t *testing.T) {
	for _, s := range []*Sheet{sampleSheet(), oneFrame(), feetSample()} {
		if err := s.Check(); err != nil {
			t.Errorf("%s: %v", s.Clip.Name, err)
		}
	}
}
