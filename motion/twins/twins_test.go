package twins

import (
	"math"
	"testing"
)

// swing is a path of some frames: an eased move of size heights from a frame on over
// twelve frames, at an angle, and back thirty frames later.
func swing(frames int, from, size, angle float64) Path {
	at := func(t float64) float64 {
		u := max(0, min(1, (t-from)/12))
		v := max(0, min(1, (t-from-30)/12))
		return size * (u*u*(3-2*u) - v*v*(3-2*v))
	}
	var p Path
	for i := range frames {
		d := at(float64(i)) - at(float64(i)-1)
		p.X, p.Y = append(p.X, d*math.Cos(angle)), append(p.Y, d*math.Sin(angle))
	}
	return p
}

func TestFind(t *testing.T) {
	for name, c := range map[string]struct {
		b      Path
		way    string
		offset float64
	}{
		"the same":              {swing(80, 10, 0.3, -1), Parallel, 0},
		"a frame and a half":    {swing(80, 11.5, 0.3, -1), Parallel, 1.5},
		"five frames":           {swing(80, 15, 0.3, -1), Parallel, 5},
		"earlier":               {swing(80, 7, 0.3, -1), Parallel, -3},
		"smaller":               {swing(80, 12, 0.2, -1), Parallel, 2},
		"turned round":          {swing(80, 10, 0.3, 1-math.Pi), Mirrored, 0},
		"turned round and late": {swing(80, 13, 0.3, 1-math.Pi), Mirrored, 3},
	} {
		got := Find(swing(80, 10, 0.3, -1), c.b, 24)
		if len(got) != 2 {
			t.Errorf("%s: %+v", name, got)
		}
		for _, w := range got {
			if w.Way != c.way || math.Abs(w.Offset-c.offset) > 0.1 || w.Likeness < 0.95 {
				t.Errorf("%s: %+v, want %s, %g", name, w, c.way, c.offset)
			}
		}
	}
}

// What goes another way, hardly at all, or much later is no twin; what is not seen is
// not known.
func TestNoTwins(t *testing.T) {
	a := swing(80, 10, 0.3, -1)
	unseen := swing(80, 10, 0.3, -1)
	for i := range unseen.X {
		unseen.X[i], unseen.Y[i] = math.NaN(), math.NaN()
	}
	lost := swing(80, 12, 0.3, -1)
	for _, i := range []int{15, 47} {
		lost.X[i], lost.Y[i] = math.NaN(), math.NaN()
	}
	for name, b := range map[string]Path{
		"another way": swing(80, 10, 0.3, 0.6), "hardly": swing(80, 10, 0.03, -1), "less than half": swing(80, 10, 0.12, -1),
		"much later": swing(80, 24, 0.3, -1), "not seen": unseen, "lost on the way": lost, "the other way": swing(80, 10, -0.3, -1),
	} {
		if got := Find(a, b, 24); len(got) != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
}
