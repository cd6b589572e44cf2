package staging

import (
	"math"

	"holdfast/motion/figure"
)

// A Side is one of the picture.
type Side int

// The sides.
const (
	Left Side = iota
	Right
	Top
	Bottom
)

var sideNames = [...]string{"left", "right", "top", "bottom"}

func (s Side) String() string { return sideNames[s] }

// other is the side across the picture.
func (s Side) other() Side { return s ^ 1 }

// A Passage is a figure's way over the edge of the picture.
type Passage struct {
	There bool // there is none: it is in the picture on the shot's first or last frame
	Side  Side
	// Start and End are the frames between which the edge cuts it: from the first on
	// which it reaches seenShare of its height into the picture, or to the last.
	Start, End int
}

const (
	// seenShare is how far a figure must reach into the picture for it to be seen there,
	// figure heights: the tip of a shoe or a finger. The eye finds less only where it knows
	// of it (common practice, no source).
	seenShare = 0.03
	// growShare is how much of its whole size a figure shows at most, across the edge, on
	// the first frame on which it is found: what comes in comes bit by bit, and what has
	// stood there unnoticed is there all at once.
	growShare = 0.6
	// backShare is how far a figure goes back on its way in at most, of its whole size: arms
	// and legs swing. What comes and goes at the edge is a light there.
	backShare = 0.5
	// slackSeconds is how late a figure may be found and be there from the start: it may
	// fade up with the picture, or rest.
	slackSeconds = 0.25
	// paceSeconds is over how long it is taken how fast a figure comes in: four frames at
	// 24 a second.
	paceSeconds = 1.0 / 6
	// leadSeconds is how long ago a figure must have been out of the picture, at the pace at
	// which it then comes in, to have come in at all: what a track begins with is a finger
	// or a toe. What is longer on its way was there, and was not told from the background.
	leadSeconds = 0.5
)

// Enters says how a figure comes into the picture; nil where that is not known: what
// rests is a part of the background, and where it first stirs it has not come in.
func (s *Shot) Enters(p Path) *Passage {
	return s.passes(&walk{path: &p, first: p.Start, step: 1, edge: s.Start})
}

// Leaves says how it goes out of it, likewise.
func (s *Shot) Leaves(p Path) *Passage {
	pass := s.passes(&walk{path: &p, first: p.end(), step: -1, edge: s.End})
	if pass != nil {
		pass.Start, pass.End = pass.End, pass.Start
	}
	return pass
}

// A walk goes along a path from its start or, back in time, from its end.
type walk struct {
	path  *Path
	first int // the frame on which the figure is found first, that way
	step  int // 1 or -1
	edge  int // the shot's first frame that way
}

// at is the box after so many steps.
func (w *walk) at(n int) figure.Box { return w.path.at(w.first + n*w.step) }

// passes is the passage at the beginning of a walk, with Start as its outer frame.
func (s *Shot) passes(w *walk) *Passage {
	for w.at(0).Empty() {
		if w.first < w.path.Start || w.first > w.path.end() {
			return nil
		}
		w.first += w.step
	}
	there := &Passage{There: true, Start: w.edge, End: w.edge}
	if w.first == w.edge {
		return there
	}
	if pass := s.over(w); pass != nil {
		return pass
	}
	if w.path.Rooted || float64((w.first-w.edge)*w.step) <= slackSeconds*s.Rate {
		return there
	}
	return nil
}

// over is the passage over an edge; nil where there is none. Of two, in a corner, it is
// that over the one beyond which more of the figure is at first.
func (s *Shot) over(w *walk) *Passage {
	var best *Passage
	least := growShare
	for side := Left; side <= Bottom; side++ {
		b := w.at(0)
		if !s.cutAt(b)[side] {
			continue
		}
		inner, whole, back := s.comesIn(w, side)
		lead := s.lead(w, side)
		if back > backShare || float64(lead) > leadSeconds*s.Rate {
			continue
		}
		if share := float64(side.size(b)) / float64(whole); share <= least {
			least = share
			outer := max((w.first-w.edge)*w.step-lead, 0)
			best = &Passage{Side: side, Start: w.edge + outer*w.step, End: w.first + inner*w.step}
		}
	}
	return best
}

// comesIn is for how many steps a side of the picture cuts a figure, how large that is
// when it is whole or, where the side cuts it throughout, at its largest, and how far it
// goes back on its way in, as a share of that.
func (s *Shot) comesIn(w *walk, side Side) (inner, whole int, back float64) {
	deepest, before, gone, lost := 0, 0, 0, 0
	for n := 0; n < len(w.path.Boxes); n++ {
		b := w.at(n)
		if b.Empty() {
			continue
		}
		if !s.cutAt(b)[side] {
			break
		}
		deep := s.within(b, side)
		gone += max(0, before-deep)
		if deep > deepest {
			deepest, lost = deep, gone
		}
		inner, whole, before = n, max(whole, side.size(b)), deep
	}
	if median := s.whole(w.path, side); median > 0 {
		whole = median
	}
	return inner, whole, float64(lost) / float64(whole)
}

// lead is for how many frames a figure is seen before it is found, by how fast it then
// comes in.
func (s *Shot) lead(w *walk, side Side) int {
	n, most := 0, max(1, int(math.Round(paceSeconds*s.Rate)))
	for n < most && !w.at(n+1).Empty() && s.cutAt(w.at(n + 1))[side] {
		n++
	}
	if n == 0 {
		return 0 // it is in with a single step
	}
	way := float64(s.within(w.at(n), side)-s.within(w.at(0), side)) / float64(n)
	deep := max(float64(s.within(w.at(0), side))-seenShare*w.path.Height, 0)
	if way <= 0 {
		return math.MaxInt
	}
	return int(min(deep/way, math.MaxInt32))
}
