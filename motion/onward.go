package motion

import (
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

const (
	// onwardShare is how much of the smaller of two boxes, one where a stretch left a
	// figure and one where a later stretch found one, must lie in the other for the
	// two to be one figure: limbs that swing in and out leave more than this in
	// common, and of figures that cross there the nearest pair comes first.
	onwardShare = 0.25
	// onwardSeconds is for how long a figure that was last seen at the picture's edge
	// may go unseen: another may enter where one left. It is what figures within a
	// stretch are allowed (six frames at 24 a second).
	onwardSeconds = 0.25
	// onwardFrames is the same for any other, which rests in its place and is a part of
	// the background for as long: one stretch.
	onwardFrames = stretchFrames
)

// known says of each figure of a stretch which of the shot's it is, as an index into
// s.figures: one that goes on from a stretch before, or, past the end of the list, one
// that is new, in order. Each goes on at most once, the nearest first.
func (s *shot) known(found *figure.Found) []int {
	who := make([]int, len(found.Figures))
	for k := range who {
		who[k] = -1
	}
	taken := map[int]bool{}
	for {
		from, to, most := -1, -1, 0.0
		for i := range s.figures {
			for k := range found.Figures {
				if who[k] >= 0 || taken[i] {
					continue
				}
				if a := s.onward(&s.figures[i], &found.Figures[k]); a > most {
					from, to, most = i, k, a
				}
			}
		}
		if from < 0 {
			break
		}
		who[to], taken[from] = from, true
	}
	next := len(s.figures)
	for k := range who {
		if who[k] < 0 {
			who[k] = next
			next++
		}
	}
	return who
}

// onward is how likely a figure of the shot goes on as one of the next stretch: what
// their boxes have in common where one was left and the other found, as a share of
// both; 0 for not at all.
func (s *shot) onward(before *Figure, after *figure.Figure) float64 {
	left, frame := before.leave()
	first := s.first + after.Start
	at := after.At(after.Start)
	if after.Rooted {
		first, at = s.first, after.Union()
	}
	if left.Empty() || at.Empty() || first-frame > onwardFrames {
		return 0
	}
	if s.atEdge(left) && float64(first-frame) > math.Ceil(onwardSeconds*s.o.Rate) {
		return 0
	}
	there := s.carried(left, frame, first)
	common := float64(there.Overlap(at))
	a, b := float64(there.W()*there.H()), float64(at.W()*at.H())
	if common < onwardShare*min(a, b) {
		return 0
	}
	return common / (a + b - common)
}

// leave is where a figure was last seen, and on which frame. One that never leaves its
// place is there on all frames, wherever it last stirred.
func (f *Figure) leave() (figure.Box, int) {
	if f.Rooted {
		var all figure.Box
		for _, b := range f.Boxes {
			all = all.Union(b)
		}
		last := f.End
		if f.Own != nil {
			last = max(last, f.Own.end())
		}
		return all, last
	}
	for i := len(f.Boxes) - 1; i >= 0; i-- {
		if !f.Boxes[i].Empty() {
			return f.Boxes[i], f.Start + i
		}
	}
	return figure.Box{}, f.End
}

// atEdge reports whether a box touches the left or right edge of the picture, where
// figures leave, but for the rim that layers cannot tell.
func (s *shot) atEdge(b figure.Box) bool {
	const rim = 2 * figure.Shrink
	return b.X0 <= rim || b.X1 >= s.o.Size.X-rim
}

// carried is where a box of one frame lies on a later one if it goes with the set.
func (s *shot) carried(b figure.Box, from, to int) figure.Box {
	way := camera.Identity
	for t := from + 1; t <= to; t++ {
		if t < s.first {
			way = way.Then(s.camera[t-s.start])
		} else {
			way = way.Then(s.steps[t-s.first].fit.Motion)
		}
	}
	mx, my := float64(s.o.Size.X-1)/2, float64(s.o.Size.Y-1)/2
	x0, y0 := way.Apply(float64(b.X0)-mx, float64(b.Y0)-my)
	x1, y1 := way.Apply(float64(b.X1)-mx, float64(b.Y1)-my)
	round := func(v float64) int { return int(math.Round(v)) }
	return figure.Box{X0: round(x0 + mx), Y0: round(y0 + my), X1: round(x1 + mx), Y1: round(y1 + my)}
}

// goOn adds what a later stretch shows of a figure. Frames between are not seen. What
// is known of the whole is no better than what is known of its worse part.
func (f *Figure) goOn(g Figure) {
	n, m := float64(len(f.Boxes)), float64(len(g.Boxes))
	f.HeightPx = (f.HeightPx*n + g.HeightPx*m) / (n + m)
	f.Rooted = f.Rooted || g.Rooted
	if g.Method == figure.ByMotion {
		f.Method = g.Method
	}
	for f.Start+len(f.Boxes) < g.Start {
		f.Boxes, f.Bare = append(f.Boxes, figure.Box{}), append(f.Bare, figure.Box{})
	}
	f.Boxes, f.Bare, f.End = append(f.Boxes, g.Boxes...), append(f.Bare, g.Bare...), g.End
	if f.Own == nil || g.Own == nil {
		f.Own = nil
		return
	}
	f.Own.goOn(g.Own)
}

// end is the last frame of which anything is kept.
func (o *Own) end() int { return o.Start + len(o.Doubt) - 1 }

// goOn adds what a later stretch shows of what a figure did by itself.
func (o *Own) goOn(later *Own) {
	for o.end()+1 < later.Start {
		o.Doubt = append(o.Doubt, figure.NotFound)
		o.max, o.wide, o.mean = append(o.max, 0), append(o.wide, 0), append(o.mean, 0)
	}
	o.Doubt = append(o.Doubt, later.Doubt...)
	o.max, o.wide = append(o.max, later.max...), append(o.wide, later.wide...)
	o.mean = append(o.mean, later.mean...)
}
