package main

import (
	"image"
	"slices"
	"testing"

	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/motion/scene"
)

// oneShot is a trial of a single shot of 100 frames with the given beats.
func oneShot(truth []scene.Beat, found []beats.Beat) *trial {
	t := &trial{size: image.Pt(640, 360), scale: 1, rate: 24, result: &motion.Result{Frames: 100}}
	t.truth = scene.Truth{Frames: 100, Shots: []scene.ShotTruth{{End: 99, Kind: "still"}}}
	t.whole = [][]scene.Beat{truth}
	for _, b := range found {
		t.result.Beats = append(t.result.Beats, motion.Beat{Beat: b})
	}
	return t
}

func trueHold(start, end int) scene.Beat { return scene.Beat{Hold: true, Start: start, End: end} }
func foundHold(start, end int) beats.Beat {
	return beats.Beat{Kind: beats.Hold, Hold: beats.Frozen, Start: start, End: end, Peak: -1}
}

func TestJudgeHolds(t *testing.T) {
	tests := []struct {
		name         string
		truth        []scene.Beat
		found        []beats.Beat
		want         Counts
		starts, ends Offsets
	}{
		{"alike", []scene.Beat{trueHold(10, 20)}, []beats.Beat{foundHold(10, 20)}, Counts{1, 1, 1}, Offsets{0}, Offsets{0}},
		{"late and short", []scene.Beat{trueHold(10, 20)}, []beats.Beat{foundHold(12, 19)}, Counts{1, 1, 1}, Offsets{2}, Offsets{-1}},
		{"half is common", []scene.Beat{trueHold(10, 19)}, []beats.Beat{foundHold(15, 19)}, Counts{1, 1, 1}, Offsets{5}, Offsets{0}},
		{"less than half is common", []scene.Beat{trueHold(10, 19)}, []beats.Beat{foundHold(16, 19)}, Counts{1, 1, 0}, nil, nil},
		{"one taken for two", []scene.Beat{trueHold(10, 29)}, []beats.Beat{foundHold(10, 24), foundHold(26, 29)}, Counts{1, 2, 1}, Offsets{0}, Offsets{-5}},
		{"nothing true", nil, []beats.Beat{foundHold(10, 29)}, Counts{0, 1, 0}, nil, nil},
		// The clip gives its ends away, but not for free when they are missed.
		{"whole clip", []scene.Beat{trueHold(0, 99)}, []beats.Beat{foundHold(0, 99)}, Counts{1, 1, 1}, nil, nil},
		{"whole clip missed", []scene.Beat{trueHold(0, 99)}, []beats.Beat{foundHold(3, 97)}, Counts{1, 1, 1}, Offsets{3}, Offsets{-2}},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			tr := oneShot(c.truth, c.found)
			judgeHolds(tr)
			if s := tr.score; s.Holds != c.want || !slices.Equal(s.Starts, c.starts) || !slices.Equal(s.Ends, c.ends) {
				t.Errorf("got %+v, starts %v, ends %v", s.Holds, s.Starts, s.Ends)
			}
		})
	}
}

func TestJudgePeaks(t *testing.T) {
	truth := []scene.Beat{{Start: 10, End: 20, Peak: 15, Ties: []int{12, 15}}, {Start: 40, End: 50, Peak: 45, Ties: []int{45}}}
	move := func(start, end, peak int) beats.Beat {
		return beats.Beat{Kind: beats.Move, Start: start, End: end, Peak: peak}
	}
	tests := []struct {
		name   string
		found  []beats.Beat
		want   Counts
		faults int
	}{
		{"exact", []beats.Beat{move(10, 20, 15), move(40, 50, 45)}, Counts{2, 2, 2}, 0},
		{"a frame off", []beats.Beat{move(10, 20, 14), move(40, 50, 46)}, Counts{2, 2, 2}, 0},
		{"as good a frame", []beats.Beat{move(10, 20, 12), move(40, 50, 45)}, Counts{2, 2, 2}, 0},
		{"beside as good a frame", []beats.Beat{move(10, 20, 11), move(40, 50, 45)}, Counts{2, 2, 1}, 1},
		{"missed and made up", []beats.Beat{move(10, 20, 15), move(70, 80, 75)}, Counts{2, 2, 1}, 2},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			tr := oneShot(truth, c.found)
			judgePeaks(tr)
			if tr.score.Peaks != c.want || len(tr.faults) != c.faults {
				t.Errorf("got %+v, faults %v", tr.score.Peaks, tr.faults)
			}
		})
	}
}

// A cut is right on its own frame only.
func TestJudgeCuts(t *testing.T) {
	tr := oneShot(nil, nil)
	tr.truth.Cuts = []int{30, 60}
	tr.result.Shots = []motion.Shot{{Start: 0, End: 29}, {Start: 30, End: 60}, {Start: 61, End: 99}}
	judgeCuts(tr)
	if want := (Counts{2, 2, 1}); tr.score.Cuts != want || len(tr.faults) != 2 {
		t.Errorf("got %+v, faults %v", tr.score.Cuts, tr.faults)
	}
}

func TestJudgeExposure(t *testing.T) {
	tr := oneShot([]scene.Beat{trueHold(0, 9), {Start: 10, End: 29, Peak: 20}, trueHold(30, 99)}, nil)
	f := scene.FigureTruth{End: 99, Exposure: []scene.Exposure{{Start: 0, End: 19, Pattern: "twos"}, {Start: 20, End: 99, Pattern: "ones"}}}
	for range 100 {
		f.Height, f.Box = append(f.Height, 100), append(f.Box, scene.Box{X1: 50, Y1: 100})
		f.Max, f.Mean = append(f.Max, 2), append(f.Mean, 1)
	}
	tr.truth.Figures = []scene.FigureTruth{f}
	tr.series = []*series{newSeries(tr.truth, 0)}
	tr.result.Exposure = []motion.Exposure{{Exposure: beats.Exposure{Start: 10, End: 24, Pattern: "twos"}}}
	judgeExposure(tr)
	// 20 frames move: 10 to 19 are on twos as found, 20 to 29 on ones.
	if want := (Share{10, 20}); tr.score.Exposure != want {
		t.Errorf("got %+v, want %+v", tr.score.Exposure, want)
	}
	// 5 frames are taken for twos and 5 for nothing.
	if len(tr.faults) != 1 || tr.faults[0].Want != "ones" {
		t.Errorf("faults %v", tr.faults)
	}
}

func TestCameraError(t *testing.T) {
	still := camera.Step{Zoom: 1}
	tests := []struct {
		name          string
		truth         scene.CameraStep
		found         camera.Step
		shift, spread float64
	}{
		{"none", scene.CameraStep{DX: 3, DY: -1, Roll: 2, Zoom: 1.1}, camera.Step{DX: 3, DY: -1, Roll: 2, Zoom: 1.1}, 0, 0},
		{"shift", scene.CameraStep{DX: 3, DY: 4, Zoom: 1}, still, 5, 5},
		// A scale off by 1 % moves a point 1 % of its way from the middle, whose
		// root mean square over 300 by 400 is 500/sqrt(12) = 144.3.
		{"zoom", scene.CameraStep{Zoom: 1.01}, still, 0, 1.443},
		{"roll", scene.CameraStep{Roll: 0.572958, Zoom: 1}, still, 0, 1.443},
	}
	for _, c := range tests {
		shift, spread := cameraError(c.truth, c.found, 300, 400)
		if !near(shift, c.shift, 1e-3) || !near(spread, c.spread, 1e-3) {
			t.Errorf("%s: shift %g, spread %g; want %g, %g", c.name, shift, spread, c.shift, c.spread)
		}
	}
}

// The found figure is given in working pixels, half the displayed ones.
func TestJudgeFigures(t *testing.T) {
	tr := oneShot(nil, nil)
	tr.scale = 2
	truth := scene.FigureTruth{Name: "one", End: 9}
	found := motion.Figure{ID: 1, End: 9, HeightPx: 55, Method: figure.ByPlate}
	for range 10 {
		truth.Height, truth.Box = append(truth.Height, 100), append(truth.Box, scene.Box{X0: 100, Y0: 100, X1: 150, Y1: 200})
		found.Boxes = append(found.Boxes, figure.Box{X0: 50, Y0: 48, X1: 75, Y1: 103})
	}
	far := found
	far.Boxes = []figure.Box{{X0: 200, Y0: 50, X1: 225, Y1: 100}}
	tr.truth.Figures, tr.result.Figures = []scene.FigureTruth{truth}, []motion.Figure{far, found}
	tr.pairFigures()
	judgeFigures(tr)
	if want := (Counts{1, 2, 1}); tr.score.Figures != want || len(tr.score.Height) != 1 || !near(tr.score.Height[0], 1.1, 1e-9) {
		t.Errorf("got %+v, heights %v", tr.score.Figures, tr.score.Height)
	}
}

// What the picture cuts off cannot be seen.
func TestSeenHeight(t *testing.T) {
	f := &scene.FigureTruth{Height: []float64{200, 200, 200}, Box: []scene.Box{
		{X1: 50, Y0: 10, Y1: 210}, {X1: 50, Y0: 60, Y1: 180}, {X1: 50, Y0: 60, Y1: 180}}}
	if got := seenHeight(f, 180); got != 120 {
		t.Errorf("a figure cut off at its knees: %g px", got)
	}
	if got := seenHeight(f, 360); got != 200 {
		t.Errorf("a figure that crouches: %g px", got)
	}
}

func near(a, b, by float64) bool { return a-b <= by && b-a <= by }
