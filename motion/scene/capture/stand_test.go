package capture

import (
	"math"
	"testing"
)

// walkInPlace is a body whose left foot goes by a formula and whose right foot
// stands.
func walkInPlace(n int, rate float64, left func(seconds float64) Vec) *Recording {
	r := &Recording{Rate: rate}
	for i := range n {
		at := left(float64(i) / rate)
		var p Pose
		for side, foot := range []Vec{at, {Z: 0.2}} {
			p[Heel.On(side)], p[Ball.On(side)], p[Toe.On(side)] = foot, foot.Add(Vec{X: 0.18}), foot.Add(Vec{X: 0.24})
			p[Ankle.On(side)] = foot.Add(Vec{0.05, 0.07, 0})
			p[Hip.On(side)] = Vec{0.1, 0.85, 0.2 * float64(side)}
			// A knee between, a little ahead.
			p[Knee.On(side)] = p[Hip.On(side)].Toward(p[Ankle.On(side)], 0.5).Add(Vec{X: 0.12})
		}
		p[Pelvis] = mean(p[Hip], p[Hip.On(Right)])
		r.Poses = append(r.Poses, p)
	}
	return r
}

// A foot that comes down at one second and leaves at two, at a metre a second
// in the air and creeping at 0.1 on the ground.
func TestStand(t *testing.T) {
	for _, rate := range []float64{30, 60, 120} {
		r := walkInPlace(int(3*rate)+1, rate, func(s float64) Vec {
			switch {
			case s < 1:
				return Vec{X: s - 1, Y: (1 - s) / 2}
			case s < 2:
				return Vec{X: (s - 1) / 10}
			}
			return Vec{X: 0.1 + s - 2, Y: (s - 2) / 2}
		})
		before := r.Poses[int(1.3*rate)]
		r.stand()
		var left []Stand
		for _, s := range r.Stands {
			if s.Side == Left {
				left = append(left, s)
			}
		}
		if len(left) != 1 || len(r.Stands) != 2 {
			t.Fatalf("rate %g: stands %v", rate, r.Stands)
		}
		if s := left[0]; !near(s.From, 1, 1.01/rate) || !near(s.To, 2, 1.01/rate) || s.Whole != [2]bool{true, true} {
			t.Errorf("rate %g: stands from %g to %g", rate, s.From, s.To)
		}
		// Planted: heel and ball stay where they are.
		first, last := r.Poses[int(1.1*rate)], r.Poses[int(1.9*rate)]
		if d := apart(first[Heel], last[Heel]); d > 1e-9 {
			t.Errorf("rate %g: the planted heel goes %g m", rate, d)
		}
		// The leg keeps its bones.
		after := r.Poses[int(1.3*rate)]
		for _, bone := range [][2]Joint{{Hip, Knee}, {Knee, Ankle}, {Ankle, Heel}} {
			a, b := apart(before[bone[0]], before[bone[1]]), apart(after[bone[0]], after[bone[1]])
			if !near(a, b, 1e-9) {
				t.Errorf("rate %g: bone %v is %g m long, was %g", rate, bone, b, a)
			}
		}
	}
}

func TestBridge(t *testing.T) {
	list := []bool{false, true, false, true, true, false, false, false, true}
	bridge(list, true, 2)
	want := []bool{false, true, true, true, true, false, false, false, true}
	for i := range list {
		if list[i] != want[i] {
			t.Fatalf("got %v", list)
		}
	}
}

// Catmull and Rom's cubic goes through its points and keeps straight lines.
func TestAt(t *testing.T) {
	r := walkInPlace(5, 10, func(s float64) Vec { return Vec{X: 2 * s} })
	for _, s := range []float64{0.1, 0.13, 0.25, 0.3} {
		if p := r.At(s); !near(p[Heel].X, 2*s, 1e-9) {
			t.Errorf("at %g s the heel is at %g", s, p[Heel].X)
		}
	}
	if a, b := r.At(-1), r.At(9); a != r.Poses[0] || b != r.Poses[4] {
		t.Error("outside the recording")
	}
}

// Worked by hand: equal balls of 0.5 and the segments' shares give a centre
// between; of a body gathered in one point it is that point.
func TestCentre(t *testing.T) {
	var p Pose
	for j := range p {
		p[j] = Vec{1, 2, 3}
	}
	if d := apart(p.Centre(), Vec{1, 2, 3}); d > 1e-3 {
		t.Errorf("centre %v", p.Centre())
	}
	sum := 0.0
	for _, m := range masses {
		sum += m.mass
		if m.pair {
			sum += m.mass
		}
	}
	if math.Abs(sum-1) > 1e-3 {
		t.Errorf("masses add up to %g", sum)
	}
}
