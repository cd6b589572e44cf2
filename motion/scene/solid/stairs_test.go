package solid

import (
	"math"
	"testing"

	"holdfast/motion/scene/capture"
)

// Two steps of half a metre by 0.2, the first riser at 1: worked by hand.
func TestStairs(t *testing.T) {
	s := Stairs{First: 1, Run: 0.5, Rise: 0.2, Steps: 2}
	for _, c := range []struct{ x, level, ramp float64 }{
		{-3, 0, 0}, {0.75, 0, 0}, {0.99, 0, 0.096}, {1, 0.2, 0.1}, {1.25, 0.2, 0.2}, {1.49, 0.2, 0.296}, {1.75, 0.4, 0.4}, {9, 0.4, 0.4},
	} {
		if got := s.level(c.x); !near(got, c.level, 1e-12) {
			t.Errorf("level at %g: %g, want %g", c.x, got, c.level)
		}
		if got := s.ramp(c.x); !near(got, c.ramp, 1e-9) {
			t.Errorf("ramp at %g: %g, want %g", c.x, got, c.ramp)
		}
	}
	for _, c := range []struct {
		name string
		o, d Vec
		want float64
	}{
		{"ground", Vec{Y: 1}, Vec{X: 0.5, Y: -1}, 1},
		{"first tread", Vec{Y: 1}, Vec{X: 1.5, Y: -1}, 0.8},
		{"second tread", Vec{Y: 1.4}, Vec{X: 2, Y: -1}, 1},
		{"first riser", Vec{Y: 0.3}, Vec{X: 1, Y: -0.2}, 1},
		{"second riser", Vec{Y: 0.3}, Vec{X: 1}, 1.5},
		{"over them", Vec{Y: 0.5}, Vec{X: 1}, math.Inf(1)},
		// From above, to the left: the upper tread hides what lies behind its edge.
		{"over the edge", Vec{X: 2, Y: 0.8}, Vec{X: -1, Y: -1}, 0.4},
	} {
		if got := s.meet(c.o, c.d); got != c.want && !near(got, c.want, 1e-9) {
			t.Errorf("%s: met %g along, want %g", c.name, got, c.want)
		}
	}
}

// The strider's feet stand at -0.95, -0.35 and 0.05 of the world: before the
// stairs, on the first tread and on the second.
func TestClimb(t *testing.T) {
	sc := strides(t, Figure{}, func(s *Spec) { s.World.Stairs = Stairs{First: -0.55, Run: 0.55, Rise: 0.12, Steps: 2} })
	tr := sc.Feet()
	if len(tr.Contacts) != 3 {
		t.Fatalf("%d contacts", len(tr.Contacts))
	}
	for i, level := range []float64{0, 0.12, 0.24} {
		c, side := tr.Contacts[i], tr.Stands[i].Side
		for _, f := range []int{c.Start, (c.Start + c.End) / 2, c.End} {
			p := sc.cast[0].pose(sc.second(float64(f)))
			for _, j := range []capture.Joint{capture.Heel, capture.Ball, capture.Toe} {
				if y := p[j.On(side)].Y; !near(y, level, 1e-9) {
					t.Errorf("contact %d: joint %d at %g on frame %d, want %g", i, j, y, f, level)
				}
			}
			if at := tr.Feet[side].Heel[f]; math.Hypot(at.X-tr.Feet[side].Heel[c.Start].X, at.Y-tr.Feet[side].Heel[c.Start].Y) > 1e-6 {
				t.Errorf("contact %d: the heel moves by frame %d", i, f)
			}
		}
	}
}

// In the catalogue each foot stands on one tread, whole, and higher each time.
func TestCatalogueStairs(t *testing.T) {
	scenes := recorded(t)
	stands := 0
	for _, sc := range scenes {
		s := &sc.spec.World.Stairs
		if s.Steps == 0 {
			continue
		}
		tr, last := sc.Feet(), 0
		for i, c := range tr.Contacts {
			if !tr.Stands[i].Whole[0] || !tr.Stands[i].Whole[1] {
				continue
			}
			p := sc.cast[0].pose(sc.second(float64(c.Start+c.End) / 2))
			heel, toe := p[capture.Heel.On(tr.Stands[i].Side)], p[capture.Toe.On(tr.Stands[i].Side)]
			on := s.tread(heel.X)
			if on != s.tread(toe.X) || on < last || stands > 1 && on != last+1 {
				t.Errorf("%s: contact %d from %.2f to %.2f, on tread %d and %d after %d", sc.Name, i, heel.X, toe.X, on, s.tread(toe.X), last)
			}
			last, stands = on, stands+1
		}
	}
	if stands < 6 {
		t.Errorf("%d stands on stairs", stands)
	}
}
