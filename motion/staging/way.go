package staging

import (
	"math"

	"holdfast/motion/figure"
)

// A way is how far both sides of a figure have gone across the picture, frame by frame,
// with the camera taken out, in some unit; first is where its middle was at first.
type way struct {
	left, right []float64
	first       float64
}

// middle is how far the middle has gone up to a frame.
func (w *way) middle(i int) float64 { return (w.left[i] + w.right[i]) / 2 }

// goes is how far the middle goes over a run.
func (w *way) goes(run [2]int) float64 { return w.middle(run[1]) - w.middle(run[0]) }

// steps is how far both sides go over a run, the lesser of both: an arm that is held out
// moves one side and the middle, but the figure goes nowhere.
func (w *way) steps(run [2]int) float64 {
	l, r := w.left[run[1]]-w.left[run[0]], w.right[run[1]]-w.right[run[0]]
	if l*r <= 0 {
		return 0
	}
	return math.Copysign(min(math.Abs(l), math.Abs(r)), l)
}

// way is that of a path from frame from to frame to; nil where it is never seen. Where an
// edge of the picture cuts it, it is as wide as elsewhere; where it was not seen it goes
// on evenly.
func (s *Shot) way(p *Path, from, to int, unit float64) *way {
	n := to - from + 1
	w := &way{left: make([]float64, n), right: make([]float64, n)}
	wide := float64(s.whole(p, Left))
	known := -1
	for i := range n {
		b := p.at(from + i)
		if b.Empty() {
			continue
		}
		w.left[i], w.right[i] = s.sides(b, wide)
		for _, list := range [][]float64{w.left, w.right} {
			bridge(list, known, i)
		}
		known = i
	}
	if known < 0 {
		return nil
	}
	w.first = w.middle(0) / unit
	for _, list := range [][]float64{w.left, w.right} {
		bridge(list, known, n)
		s.takeOut(list, from, unit)
	}
	return w
}

// bridge fills in what lies between two places that are known, -1 and the length of the
// list for none.
func bridge(list []float64, a, b int) {
	for k := a + 1; k < b; k++ {
		switch {
		case a < 0:
			list[k] = list[b]
		case b == len(list):
			list[k] = list[a]
		default:
			list[k] = list[a] + (list[b]-list[a])*float64(k-a)/float64(b-a)
		}
	}
}

// sides are those of a box across the picture, of a figure that is so wide where it is
// whole, 0 where that is not known.
func (s *Shot) sides(b figure.Box, wide float64) (left, right float64) {
	left, right = float64(b.X0), float64(b.X1)
	cut := s.cutAt(b)
	switch {
	case wide == 0 || cut[Left] == cut[Right]:
	case cut[Left]:
		left = min(left, right-wide)
	default:
		right = max(right, left+wide)
	}
	return left, right
}

// takeOut turns places across the picture from a frame on into how far a figure has gone
// since, in units, with the camera taken out.
func (s *Shot) takeOut(x []float64, from int, unit float64) {
	middle := float64(s.W-1) / 2
	was, gone := x[0], 0.0
	x[0] = 0
	for i := 1; i < len(x); i++ {
		c := s.Camera[from+i-s.Start]
		gone += (x[i] - (middle + c.Zoom*(was-middle) - c.DX)) / unit
		was, x[i] = x[i], gone
	}
}
