package motion

import (
	"image"
	"math"
	"testing"
)

// A soft shadow on plain ground, wider than the feet on it, is no part of the figure: its
// sides lie within a hundredth of the picture's width of those drawn.
func TestBareOfShadow(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "walk-small-feet", "clean")
	r, truth := measure(t, sc), sc.Truth().Figures[0]
	f := r.Figures[0]
	shadowed := 0
	for n := 3; n < 13; n++ {
		want, box, got := truth.Box[n-truth.Start], f.Boxes[n-f.Start], f.Bare[n-f.Start]
		if math.Abs(float64(got.X0)-want.X0) > 6.4 || math.Abs(float64(got.X1)-want.X1) > 6.4 {
			t.Errorf("frame %d: from %d to %d, want %.1f to %.1f", n, got.X0, got.X1, want.X0, want.X1)
		}
		if box.W() > got.W() {
			shadowed++
		}
	}
	if shadowed == 0 {
		t.Error("there was no shadow to take out")
	}
}
