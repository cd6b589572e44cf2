package poses

import (
	"math"
	"testing"
)

// bar is a bar of so many pixels, turned by an angle in degrees to the right from
// upright, with its middle at (x, y).
func bar(x, y, long, wide, degrees float64) func(f func(x, y int)) {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return func(f func(x, y int)) {
		for j := range 400 {
			for i := range 400 {
				u, v := float64(i)-x, float64(j)-y
				if math.Abs(u*s-v*c) <= long/2 && math.Abs(u*c+v*s) <= wide/2 {
					f(i, j)
				}
			}
		}
	}
}

func poseOf(t *testing.T, each func(f func(x, y int))) Pose {
	t.Helper()
	p, ok := Of([]Shape{Read(160, each), Read(160, each)})
	if !ok {
		t.Fatal("no pose")
	}
	return p
}

func TestLeanOfBars(t *testing.T) {
	for _, degrees := range []float64{0, 5, -5, 30, -30, 60, -80} {
		if p := poseOf(t, bar(200, 200, 160, 30, degrees)); !(math.Abs(p.Lean-degrees) < 0.5) {
			t.Errorf("%g degrees: %g", degrees, p.Lean)
		}
	}
	if p := poseOf(t, bar(200, 200, 100, 100, 0)); !math.IsNaN(p.Lean) {
		t.Errorf("a square leans by %g", p.Lean)
	}
	p := poseOf(t, bar(200, 200, 160, 32, 0))
	if math.Abs(p.Width-0.2) > 0.01 || math.Abs(p.Height-1) > 0.01 {
		t.Errorf("%g wide, %g high", p.Width, p.Height)
	}
}

// Two bars of one middle at right angles share a square: 1 - w²/(2wl - w²).
func TestUnlike(t *testing.T) {
	const long, wide = 160.0, 40.0
	up, across := poseOf(t, bar(200, 200, long, wide, 0)), poseOf(t, bar(200, 200, long, wide, 90))
	if got, want := Unlike(up, across), 1-wide*wide/(2*wide*long-wide*wide); math.Abs(got-want) > 0.03 {
		t.Errorf("%g, want %g", got, want)
	}
	if got := Unlike(up, poseOf(t, bar(120, 230, long, wide, 0))); got > 0.01 {
		t.Errorf("the same elsewhere differs by %g", got)
	}
	if got := up.Back([]Pose{across, poseOf(t, bar(120, 230, long, wide, 0))}); got != 1 {
		t.Errorf("comes back to %d, want 1", got)
	}
	if got := up.Back([]Pose{across}); got != -1 {
		t.Errorf("comes back to %d", got)
	}
}

func TestNoPoseOfNothing(t *testing.T) {
	one := Read(160, bar(200, 200, 160, 30, 0))
	for name, frames := range map[string][]Shape{"no frames": nil, "nothing": make([]Shape, 5), "mostly nothing": {one, {}, {}}} {
		if _, ok := Of(frames); ok {
			t.Error(name)
		}
	}
	if s := Read(0, bar(200, 200, 160, 30, 0)); s.Pixels != 0 {
		t.Errorf("no height: %+v", s)
	}
}
