package motion

import (
	"fmt"
	"image"
	"math"
	"testing"

	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// swinging is a figure that takes an arm up and down again over so many frames each,
// by one ease.
func swinging(t *testing.T, frames float64, ease scene.Ease, on int, pan float64) *scene.Scene {
	t.Helper()
	low, high := scene.Pose{Near: scene.Arm{Shoulder: 8}}, scene.Pose{Near: scene.Arm{Shoulder: 150, Elbow: 10}}
	f := scene.Figure{Name: "swinger", Build: scene.Build{Height: 270}, Ground: 148, Keys: []scene.Key{
		{From: 0, To: 12, Pose: low},
		{From: 12 + frames, To: 24 + frames, Pose: high, Ease: ease},
		{From: 24 + 2*frames, To: 40 + 2*frames, Pose: low, Ease: ease},
	}}
	n := int(40 + 2*frames)
	if on > 1 {
		f.Exposure = []scene.Stretch{{To: n - 1, On: on}}
	}
	sh := scene.Shot{Frames: n, Backdrop: scene.Backdrop{Seed: 9}, Figures: []scene.Figure{f}}
	if pan != 0 {
		sh.Camera = scene.Camera{Moves: []scene.CameraMove{{From: 0, To: float64(n - 1), DX: pan, Ease: scene.Linear}}}
	}
	sc, err := scene.New(scene.Spec{Name: "swinging", Width: 640, Height: 360, Shots: []scene.Shot{sh}})
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// The speed of half a cosine is under three fifths of its peak for a share of
// asin(0.6)/pi of its time at either end, that of a quarter for twice as much at one. An
// end without an ease must be told as such; how long an ease is depends on how well
// the arm is seen before the body.
func TestSpacingOfKnownEases(t *testing.T) {
	sum, ends := 0.0, 0.0
	share := math.Asin(0.6) / math.Pi
	for _, c := range []struct {
		ease    scene.Ease
		in, out float64 // shares of the move's time
	}{
		{scene.EaseInOut, share, share}, {scene.Linear, 0, 0}, {scene.EaseIn, 2 * share, 0}, {scene.EaseOut, 0, 2 * share},
	} {
		for _, v := range []struct {
			frames float64
			on     int
			pan    float64
		}{{10, 1, 0}, {16, 1, 40}, {16, 2, 0}} {
			name := fmt.Sprintf("ease %d, %g frames on %d, pan %g", c.ease, v.frames, v.on, v.pan)
			r := measure(t, swinging(t, v.frames, c.ease, v.on, v.pan))
			moves := 0
			for _, b := range r.Beats {
				if b.Kind != beats.Move {
					continue
				}
				moves++
				s := b.Texture.Spacing
				for _, e := range [][2]float64{{s.EaseIn, c.in * v.frames}, {s.EaseOut, c.out * v.frames}} {
					sum, ends = sum+math.Abs(e[0]-e[1]), ends+1
					if within := 0.2*v.frames + 0.3; !(math.Abs(e[0]-e[1]) <= within) || (e[1] == 0) != (e[0] < 0.1*v.frames) {
						t.Errorf("%s: eases for %.2f frames, want %.2f: %.3f on %v", name, e[0], e[1], s.Travel, s.Frames)
					}
				}
			}
			if moves != 2 {
				t.Errorf("%s: %d moves", name, moves)
			}
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
