package motion

import (
	"math"
	"testing"

	"holdfast/motion/scene"
)

// A figure lifts the arm on the left of the screen, then the one on the right; its
// legs stand still.
func TestBandsOfTwoArms(t *testing.T) {
	rest := scene.Pose{Near: scene.Arm{Shoulder: -20}, Far: scene.Arm{Shoulder: 20}}
	left, both := rest, rest
	left.Near.Shoulder = -80
	both.Near.Shoulder, both.Far.Shoulder = -80, 80
	f := scene.Figure{Name: "waver", Build: scene.Build{Height: 270}, Ground: 148, Keys: []scene.Key{
		{From: 0, To: 10, Pose: rest}, {From: 22, To: 36, Pose: left}, {From: 48, To: 60, Pose: both},
	}}
	for _, pan := range []float64{0, 30} {
		sh := scene.Shot{Frames: 60, Backdrop: scene.Backdrop{Seed: 9}, Figures: []scene.Figure{f}}
		if pan != 0 {
			sh.Camera = scene.Camera{Moves: []scene.CameraMove{{From: 0, To: 59, DX: pan, Ease: scene.Linear}}}
		}
		sc, err := scene.New(scene.Spec{Name: "two-arms", Width: 640, Height: 360, Shots: []scene.Shot{sh}})
		if err != nil {
			t.Fatal(err)
		}
		bands := measure(t, sc).Curve.Bands
		var sum [2]Bands // of both moves
		for i, b := range bands {
			for k, v := range b.list() {
				*sum[min(1, i/30)].list()[k] += *v
			}
		}
		if math.IsNaN(sum[0].Lower) {
			t.Errorf("pan %g: no thirds", pan)
		}
		t.Logf("pan %g: %.4f", pan, sum)
		if len(bands) != 60 || !(sum[0].Left > 4*sum[0].Right) || !(sum[1].Right > 4*sum[1].Left) {
			t.Errorf("pan %g: the halves go %.4f", pan, sum)
		}
		for _, s := range sum {
			if s.Upper+s.Middle <= 10*s.Lower {
				t.Errorf("pan %g: the legs go as well: %.4f", pan, s)
			}
		}
	}
}
