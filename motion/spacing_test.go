package motion

import (
	"image"
	"math"
	"testing"

	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// An end without an ease must be told as such; how long an ease is depends on how well
// the arm is seen before the body.
func TestSpacingOfKnownEases(t *testing.T) {
	list, err := scene.Swings(image.Pt(640, 360))
	if err != nil {
		t.Fatal(err)
	}
	sum, ends := 0.0, 0.0
	for _, d := range list {
		moves := 0
		for _, b := range measure(t, d.Scene).Beats {
			if b.Kind != beats.Move {
				continue
			}
			moves++
			s := b.Texture.Spacing
			for _, e := range [][2]float64{{s.EaseIn, d.In}, {s.EaseOut, d.Out}} {
				sum, ends = sum+math.Abs(e[0]-e[1]), ends+1
				if within := 0.2*d.Length + 0.3; !(math.Abs(e[0]-e[1]) <= within) || (e[1] == 0) != (e[0] < 0.1*d.Length) {
					t.Errorf("%s: eases for %.2f frames, want %.2f: %.3f on %v", d.Name, e[0], e[1], s.Travel, s.Frames)
				}
			}
		}
		if moves != 2 {
			t.Errorf("%s: %d moves", d.Name, moves)
		}
	}
	if mean := sum / ends; !(mean < 1) {
		t.Errorf("eases are wrong by %.2f frames in the mean", mean)
	}
}

// A move of a later shot has its spacing on its own frames.
func TestSpacingOfLaterShots(t *testing.T) {
	r := measure(t, find(t, image.Pt(320, 180), "cuts", "clean"))
	later := 0
	for _, b := range r.Beats {
		if b.Kind != beats.Move || b.Shot == 0 {
			continue
		}
		f := b.Texture.Spacing.Frames
		if b.End > b.Start && len(f) == 0 || len(f) > 0 && (f[0] < b.Start || f[0] > b.Start+1 || f[len(f)-1] > b.End+1) {
			t.Errorf("%d-%d: drawings on %v", b.Start, b.End, f)
		}
		later++
	}
	if later == 0 {
		t.Error("no moves in later shots")
	}
}
