package staging

import (
	"math"

	"holdfast/motion/figure"
)

// Who closes or opens a gap.
const (
	ByFirst  = "first"
	BySecond = "second"
	ByBoth   = "both"
)

// An Approach is a stretch over which the gap between two figures shrinks or grows.
type Approach struct {
	Start, End int // from the last frame before it to the last on which it goes on
	// Change is by how much the gap between their middles across the picture grows, heights
	// of the taller; below 0 it shrinks.
	Change float64
	By     string // who does it
}

const (
	// windowSeconds is over how long the pace of a gap is taken: a step of a walk, in
	// which limbs swing out and back.
	windowSeconds = 0.5
	// pace is how fast a gap must change, heights of the taller a second: a tenth of a
	// walk, of about 0.8 (from memory).
	pace = 0.1
	// restSeconds parts two stretches that go the same way: what pauses for less is on
	// its way.
	restSeconds = 0.5
	// least is by how much a gap must change, heights of the taller: less than the step
	// of a walk, more than a shift of weight.
	least = 0.25
	// stir is by how much the gap has changed when the eye sees it, and how much is left
	// when it is over, heights of the taller.
	stir = 0.04
	// aloneShare is the least share of a change that is both figures' doing.
	aloneShare = 0.2
)

// Approaches are those of two figures on the frames on which both are there, in order.
func (s *Shot) Approaches(a, b Path) []Approach {
	from, to := max(a.Start, b.Start), min(a.end(), b.end())
	unit := max(a.Height, b.Height)
	if float64(to-from) < windowSeconds*s.Rate || unit <= 0 {
		return nil // too short to tell a pace
	}
	p, q := s.middles(&a, from, to), s.middles(&b, from, to)
	if p == nil || q == nil {
		return nil
	}
	apart := (q[0] - p[0]) / unit
	s.takeOut(p, from, unit)
	s.takeOut(q, from, unit)
	g := gap{rate: s.Rate}
	for i := range p {
		g.at = append(g.at, apart+q[i]-p[i])
	}
	var list []Approach
	for _, run := range g.runs() {
		ahead := math.Copysign(1, g.at[run[0]]+g.at[run[1]])
		byA, byB := -ahead*(p[run[1]]-p[run[0]]), ahead*(q[run[1]]-q[run[0]])
		n := Approach{Change: byA + byB}
		run = g.seen(run)
		n.Start, n.End = from+run[0], from+run[1]
		if math.Abs(n.Change) < least {
			continue
		}
		n.By = by(byA/n.Change, byB/n.Change)
		list = append(list, n)
	}
	return list
}

// takeOut turns places across the picture from a frame on into how far a figure has
// gone since, in units, with the camera taken out.
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

// by names who does a change, of the shares of which each is.
func by(a, b float64) string {
	switch {
	case a < aloneShare:
		return BySecond
	case b < aloneShare:
		return ByFirst
	}
	return ByBoth
}

// middles are where the middle of a figure is across the picture, from frame from to
// frame to, pixels; nil where it is never seen. Where an edge cuts it, it is as wide as
// elsewhere; where it was not seen it goes on evenly.
func (s *Shot) middles(p *Path, from, to int) []float64 {
	list := make([]float64, to-from+1)
	wide := float64(s.whole(p, Left))
	known := -1
	for i := range list {
		b := p.at(from + i)
		if b.Empty() {
			continue
		}
		list[i] = s.middle(b, wide)
		for k := known + 1; k < i; k++ {
			list[k] = list[i]
			if known >= 0 {
				list[k] = list[known] + (list[i]-list[known])*float64(k-known)/float64(i-known)
			}
		}
		known = i
	}
	if known < 0 {
		return nil
	}
	for k := known + 1; k < len(list); k++ {
		list[k] = list[known]
	}
	return list
}

// middle is that of a box across the picture, of a figure that is so wide where it is
// whole, 0 where that is not known.
func (s *Shot) middle(b figure.Box, wide float64) float64 {
	seen := float64(b.X0+b.X1) / 2
	cut := s.cutAt(b)
	switch {
	case wide == 0 || cut[Left] == cut[Right]:
		return seen
	case cut[Left]:
		return min(seen, float64(b.X1)-wide/2)
	}
	return max(seen, float64(b.X0)+wide/2)
}
