package scene

import "math"

// Sides of the picture at which figures enter and leave.
const (
	SideLeft   = "left"
	SideRight  = "right"
	SideTop    = "top"
	SideBottom = "bottom"
)

// A Passage is a figure's way over an edge of the picture: from the first frame on
// which any of it is within to the last on which that edge cuts it, or the reverse. A
// passage without a side is none: the figure is there from the shot's first frame on,
// or until its last, which then are both Start and End.
type Passage struct {
	Side       string
	Start, End int
}

// An Approach is a stretch over which the gap between two figures that are both seen
// shrinks or grows with no rest of nearingRest in it, by nearingLeast at least. Start is
// the last frame on which it has changed by less than nearingStir, End the first on which
// less than that is left.
type Approach struct {
	Figures    [2]int // indexes into Truth.Figures
	Start, End int
	Change     float64    // of the gap, heights of the taller; below 0 it shrinks
	By         [2]float64 // what each adds to Change
}

// seenLeast is how far into the picture a figure reaches at least to be seen there, in
// its heights: the tip of a shoe is overlooked.
const seenLeast = 0.03

const (
	// nearingPace is how fast a gap changes at least, heights of the taller a second: a
	// twentieth of a walk, less than a trunk that sways.
	nearingPace = 0.05
	// nearingRest parts two stretches, seconds: longer than a drawing stays up.
	nearingRest = 0.5
	// nearingStir is what of a change is not seen yet, or any more, heights of the taller.
	nearingStir = 0.04
	// nearingLeast is by how much it must change, heights of the taller: less is a shift
	// of weight.
	nearingLeast = 0.25
)

// passages reckons where a figure comes in and goes out. Its outlines are those of all
// frames from start, the part beyond the picture with them.
func (ft *FigureTruth) passages(start int, outlines []box, w, h float64) {
	end := start + len(outlines) - 1
	ft.Enters, ft.Leaves = Passage{Start: start, End: start}, Passage{Start: end, End: end}
	if ft.Start > start {
		p := ft.passage(start, outlines, w, h, ft.Start, ft.End, 1)
		ft.Enters = p
	}
	if ft.End < end {
		p := ft.passage(start, outlines, w, h, ft.End, ft.Start, -1)
		ft.Leaves = Passage{p.Side, p.End, p.Start}
	}
}

// passage goes from the outermost frame on which a figure is within the picture to
// another, step by step, and returns the first on which it is seen, and the last on which
// the edge cuts it.
func (ft *FigureTruth) passage(start int, outlines []box, w, h float64, from, to, step int) Passage {
	side := beyond(outlines[from-step-start], w, h)
	for from != to && deep(side, outlines[from-start], w, h) < seenLeast*ft.Height[from-ft.Start] {
		from += step
	}
	p := Passage{side, from, from}
	for f := from; cuts(side, outlines[f-start], w, h); f += step {
		p.End = f
		if f == to {
			break
		}
	}
	return p
}

// deep is how far something reaches into the picture from a side.
func deep(side string, b box, w, h float64) float64 {
	switch side {
	case SideLeft:
		return b.x1
	case SideRight:
		return w - b.x0
	case SideTop:
		return b.y1
	}
	return h - b.y0
}

// beyond is the side at which something out of the picture lies.
func beyond(b box, w, h float64) string {
	switch {
	case b.x1 <= 0:
		return SideLeft
	case b.x0 >= w:
		return SideRight
	case b.y1 <= 0:
		return SideTop
	}
	return SideBottom
}

// cuts reports whether a side of the picture cuts something.
func cuts(side string, b box, w, h float64) bool {
	switch side {
	case SideLeft:
		return b.x0 < 0
	case SideRight:
		return b.x1 > w
	case SideTop:
		return b.y0 < 0
	}
	return b.y1 > h
}

// anchor is the middle of a figure's hips, or of a ball, in the world.
func (s *stage) anchor(a *actor, i int) Point {
	for j, piece := range a.pieces() {
		if piece.name == trunk || piece.name == ball {
			return s.places[i][j].at(Point{})
		}
	}
	return Point{}
}

// reckonApproaches adds, for each two figures of a shot, where the gap between them
// shrinks or grows.
func (t *Truth) reckonApproaches(first int, rate float64) {
	for i := first; i < len(t.Figures); i++ {
		for k := i + 1; k < len(t.Figures); k++ {
			t.Approaches = append(t.Approaches, t.approaches(i, k, rate)...)
		}
	}
}

// approaches are those of two figures, in order.
func (t *Truth) approaches(i, k int, rate float64) (list []Approach) {
	a, b := &t.Figures[i], &t.Figures[k]
	unit := math.Max(a.stands, b.stands)
	for f := max(a.Enters.Start, b.Enters.Start) + 1; f <= min(a.Leaves.End, b.Leaves.End); f++ {
		ahead := math.Copysign(1, b.at[f-b.Start].X-a.at[f-a.Start].X)
		by := [2]float64{-ahead * a.across(f) / unit, ahead * b.across(f) / unit}
		d := by[0] + by[1]
		if math.Abs(d)*rate < nearingPace {
			continue
		}
		now := len(list) - 1
		if now < 0 || list[now].Change*d < 0 || float64(f-1-list[now].End) >= nearingRest*rate {
			list = append(list, Approach{Figures: [2]int{i, k}, Start: f - 1})
			now++
		}
		n := &list[now]
		n.End, n.Change, n.By[0], n.By[1] = f, n.Change+d, n.By[0]+by[0], n.By[1]+by[1]
	}
	kept := list[:0]
	for _, n := range list {
		if math.Abs(n.Change) >= nearingLeast {
			n.Start, n.End = t.seen(n, unit)
			kept = append(kept, n)
		}
	}
	return kept
}

// seen is where of a change something is seen, in heights of so many stage units.
func (t *Truth) seen(n Approach, unit float64) (start, end int) {
	a, b := &t.Figures[n.Figures[0]], &t.Figures[n.Figures[1]]
	since := func(from, to int) float64 {
		gap := func(f int) float64 { return b.at[f-b.Start].X - a.at[f-a.Start].X }
		return math.Abs(gap(to)-gap(from)) / unit
	}
	start, end = n.Start, n.End
	for since(n.Start, start+1) < nearingStir {
		start++
	}
	for since(end-1, n.End) < nearingStir {
		end--
	}
	return start, end
}

// across is how far a figure goes to the right on the step to a frame, stage units.
func (ft *FigureTruth) across(f int) float64 { return ft.at[f-ft.Start].X - ft.at[f-1-ft.Start].X }
