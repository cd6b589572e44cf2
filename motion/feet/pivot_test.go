package feet

import (
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

const turnFrames = 24

// legged is a figure of 100 pixels, from row 40 to 140, whose only leg ends in a
// foot of 15 at column 100; lift says how many pixels it is off the ground on a
// frame.
func legged(lift func(t int) int) *walker {
	const w, h = 240, 180
	s := &Stretch{Rate: 24, W: w, H: h}
	f := &figure.Figure{HeightPx: 100}
	for t := range turnFrames {
		shape := figure.Silhouette{W: w / figure.Shrink, H: h / figure.Shrink, Words: make([]uint64, w*h/4/64+1)}
		up := lift(t) / figure.Shrink
		for y := 20 - up; y < 70-up; y++ {
			for x := 46; x < 54; x++ {
				if y >= 64-up || x < 50 {
					i := y*shape.W + x
					shape.Words[i/64] |= 1 << (i % 64)
				}
			}
		}
		s.Path = append(s.Path, camera.Identity)
		s.Bodies, s.Covers = append(s.Bodies, shape), append(s.Covers, shape)
		f.Boxes = append(f.Boxes, figure.Box{X0: 90, Y0: 40 - lift(t), X1: 110, Y1: 140 - lift(t)})
	}
	walk := s.walker(f)
	walk.sole = usualSole
	return walk
}

func TestTurningFootIsOneContact(t *testing.T) {
	stand := func(start, end int, x, slip float64) Contact {
		return Contact{Start: start, End: end, X: x, Y: 140, Slip: slip, Share: slip / 100, LastX: x + slip, LastY: 140}
	}
	down := func(int) int { return 0 }
	up := func(t int) int { // lifted while nothing is followed
		if t > 8 && t < 12 {
			return 8
		}
		return 0
	}
	for name, c := range map[string]struct {
		lift  func(int) int
		list  []Contact
		want  int
		slips float64
	}{
		"turns on its heel":        {down, []Contact{stand(0, 8, 98, 0), stand(12, 23, 105, 0)}, 1, 0},
		"and shifts a little":      {down, []Contact{stand(0, 8, 98, 2), stand(12, 23, 105, 3)}, 1, 0},
		"and slides":               {down, []Contact{stand(0, 8, 98, 8), stand(12, 23, 108, 6)}, 1, 14},
		"turns twice":              {down, []Contact{stand(0, 6, 98, 0), stand(9, 14, 105, 0), stand(18, 23, 100, 0)}, 1, 0},
		"lifted and put down":      {up, []Contact{stand(0, 8, 98, 0), stand(12, 23, 105, 0)}, 2, 0},
		"a step away":              {down, []Contact{stand(0, 8, 98, 0), stand(12, 23, 115, 0)}, 2, 0},
		"at another level":         {down, []Contact{stand(0, 8, 98, 0), {Start: 12, End: 23, X: 105, Y: 132, LastX: 105, LastY: 132}}, 2, 0},
		"too long between":         {down, []Contact{stand(0, 8, 98, 0), stand(16, 23, 105, 0)}, 2, 0},
		"from one pose to another": {down, []Contact{stand(0, 8, 98, 0), stand(9, 23, 105, 0)}, 2, 0},
		"two feet at a time":       {down, []Contact{stand(0, 14, 98, 0), stand(12, 23, 105, 0)}, 2, 0},
	} {
		w := legged(c.lift)
		got := w.joinTurns(c.list)
		if len(got) != c.want {
			t.Errorf("%s: %d contacts, want %d", name, len(got), c.want)
			continue
		}
		if c.want == 1 && (!got[0].Turns || got[0].Start != 0 || got[0].End != 23 || math.Abs(got[0].Slip-c.slips) > 1e-9) {
			t.Errorf("%s: %+v, want it to slip %g", name, got[0], c.slips)
		}
		if c.want > 1 && got[0].Turns {
			t.Errorf("%s: said to turn", name)
		}
	}
}
