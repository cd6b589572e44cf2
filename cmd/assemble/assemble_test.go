package assemble

import (
	"bytes"
	"image"
	"strings"
	"testing"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/sheet"
)

// fakeMeasured is a made-up result at a third of the displayed size, the clip
// numbered from 1001, measured from its eleventh frame on.
func fakeMeasured() *Measured {
	steps := make([]camera.Step, 24)
	for i := range steps {
		steps[i] = camera.Step{DX: 2, DY: -1, Roll: 0.25, Zoom: 1.01}
	}
	return &Measured{
		Tool: sheet.Tool{Name: "holdfast", Version: "1"},
		clip: extract.Clip{
			Name: "walk.mp4", Width: 1920, Height: 1080, Work: image.Pt(640, 540),
			Rate: extract.Rate{Num: 24, Den: 1}, SourceRate: extract.Rate{Num: 30000, Den: 1001}, Conformed: true,
		},
		Warnings: []string{"from the reader"}, SHA256: strings.Repeat("a", 64), First: 1001, Skipped: 10,
		result: &motion.Result{
			Frames: 24,
			Shots: []motion.Shot{
				{Start: 0, End: 11, Camera: camera.Summary{Kind: "pan", TravelX: 20, TravelY: -5, Zoom: 1.1}},
				{Start: 12, End: 23, Join: camera.Join{Kind: camera.Dissolve, Frame: 12, Start: 9, End: 14}, Camera: camera.Summary{Kind: "still", Zoom: 1}},
			},
			Figures: []motion.Figure{{ID: 1, Shot: 1, Start: 12, End: 23, HeightPx: 100, Method: figure.ByPlate}},
			Beats: []motion.Beat{
				{Shot: 0, Figure: 0, Beat: beats.Beat{Kind: beats.Hold, Start: 0, End: 11, Hold: beats.Moving, Peak: -1}},
				{Shot: 1, Figure: 1, Beat: beats.Beat{Kind: beats.Move, Start: 12, End: 23, Peak: 15, Size: 1, EaseIn: 3, EaseOut: 8}},
			},
			Exposure: []motion.Exposure{{Shot: 1, Figure: 1, Exposure: beats.Exposure{
				Start: 12, End: 23, Pattern: "twos", FramesPerDrawing: 2,
			}}},
			Repeats:  &beats.Repeats{Every: 5, First: 3},
			Curve:    motion.Curve{Motion: make([]float64, 24), Camera: steps},
			Settings: map[string]any{"still_share": 0.003},
			Warnings: []string{"from the measuring"},
		},
	}
}

func TestAssemble(t *testing.T) {
	s := fakeMeasured().Sheet()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	// 1920/640 = 3 displayed pixels a working pixel across, 1080/540 = 2 down.
	if c := s.Shots[0].Camera; c.TravelX != 60 || c.TravelY != -10 || c.Zoom != 1.1 {
		t.Errorf("camera %+v", c)
	}
	if j := s.Shots[1].Join; s.Shots[0].Join != nil || j == nil || *j != (sheet.Join{Kind: sheet.JoinDissolve, Start: 1020, End: 1025}) {
		t.Errorf("joins %+v, %+v", s.Shots[0].Join, j)
	}
	if c := s.Curve.Camera[5]; c != [4]float64{6, -2, 0.25, 1.01} {
		t.Errorf("camera step %v", c)
	}
	if f := s.Figures[0]; f.Height != 200 || f.Shot != 2 || f.Start != 1023 || f.Method != sheet.ByPlate {
		t.Errorf("figure %+v", f)
	}
	if c := s.Clip; c.FirstFrame != 1011 || c.Skipped != 10 || c.Last() != 1034 || c.SourceFPS == nil || len(c.Warnings) != 2 {
		t.Errorf("clip %+v", c)
	}
	b := s.Beats[1]
	if b.Shot != 2 || b.Start != 1023 || b.End != 1034 || *b.Peak != 1026 || *b.EaseIn != 3 || *b.EaseOut != 8 {
		t.Errorf("move %+v", b)
	}
	// Frame 1023 is the 23rd of the clip: 22 frames in.
	if b.Timecode != "00:00:00:22" || s.Beats[0].Hold != sheet.HoldMoving || s.Beats[0].Peak != nil {
		t.Errorf("beats %+v", s.Beats)
	}
	if e := s.Exposure[0]; e.Shot != 2 || e.Start != 1023 || e.Pattern != "twos" {
		t.Errorf("exposure %+v", e)
	}
	if s.Repeats.First != 1014 {
		t.Errorf("repeats %+v", s.Repeats)
	}
	if s.Settings["still_share"] != 0.003 || s.Settings["work_width_px"] != 640 {
		t.Errorf("settings %v", s.Settings)
	}
}

func TestAssembleLeavesTheResultAlone(t *testing.T) {
	m := fakeMeasured()
	m.result.Curve.Motion[3] = 0.123456789
	first, second := new(bytes.Buffer), new(bytes.Buffer)
	if err := m.Sheet().WriteJSON(first); err != nil {
		t.Fatal(err)
	}
	if err := m.Sheet().WriteJSON(second); err != nil {
		t.Fatal(err)
	}
	if first.String() != second.String() || m.result.Curve.Motion[3] != 0.123456789 || len(m.result.Settings) != 1 {
		t.Error("making a sheet changed what it was made of")
	}
}
