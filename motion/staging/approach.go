package staging

import "math"

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
	p, q := s.way(&a, from, to, unit), s.way(&b, from, to, unit)
	if p == nil || q == nil {
		return nil
	}
	g := gap{rate: s.Rate}
	for i := range p.left {
		g.at = append(g.at, q.first-p.first+q.middle(i)-p.middle(i))
	}
	var list []Approach
	for _, run := range g.runs() {
		ahead := math.Copysign(1, g.at[run[0]]+g.at[run[1]])
		byA, byB := -ahead*p.goes(run), ahead*q.goes(run)
		change := byA + byB
		if firm := ahead * (q.steps(run) - p.steps(run)); math.Abs(change) < least || firm*change < least*math.Abs(change) {
			continue
		}
		run = g.seen(run)
		list = append(list, Approach{from + run[0], from + run[1], change, by(byA/change, byB/change)})
	}
	return list
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
