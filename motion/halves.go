package motion

import (
	"slices"

	"holdfast/motion/figure"
	"holdfast/motion/travel"
	"holdfast/motion/twins"
)

const (
	// middleShare is how wide the middle of a figure's box is, as a share of the box: a
	// trunk between two arms that hang.
	middleShare = 0.25
	// middleMost is how much what moves in the middle may go, squared, against what moves
	// in the halves, for these to move by themselves: for a body that moves as a whole it
	// is about one, for arms on both sides of a still one a twentieth.
	middleMost = 0.25
)

// halves are how the sides of a figure go, as the screen has them, with nothing marked,
// and a strip in their middle; figure heights once the shot has ended, pixels before.
type halves struct{ left, right, middle twins.Path }

// over divides all ways by some length.
func (h *halves) over(length float64) {
	for _, p := range []*twins.Path{&h.left, &h.right, &h.middle} {
		for i := range p.X {
			p.X[i], p.Y[i] = p.X[i]/length, p.Y[i]/length
		}
	}
}

// halve adds how both halves of the figure's box go on the way to each frame of a
// stretch: the mean of what moves there, the faster the heavier, with the camera taken
// out; nothing where there are several figures.
func (s *shot) halve(found *figure.Found, maps []*travel.Map) {
	one, partly := len(found.Figures) == 1, false
	if one {
		f := &found.Figures[0]
		partly = f.Rooted && !f.Whole // its boxes are only those of what moves
	}
	var all figure.Box
	for t := range maps {
		all = all.Union(boxOf(found, t))
	}
	for t, m := range maps {
		var left, right, middle pull
		if m != nil && t > 0 && one {
			box := boxOf(found, t-1).Union(boxOf(found, t))
			if partly {
				box = all // one arm at a time has no middle of a body
			}
			left, right, middle = pulls(m, found.Regions[t-1], box)
		}
		left.addTo(&s.halves.left)
		right.addTo(&s.halves.right)
		middle.addTo(&s.halves.middle)
	}
}

// A pull sums ways, each with its own length for its weight.
type pull struct{ x, y, weight float64 }

func (p *pull) add(x, y, weight float64) {
	p.x, p.y, p.weight = p.x+x*weight, p.y+y*weight, p.weight+weight
}

// addTo adds the mean to a path.
func (p pull) addTo(path *twins.Path) {
	if p.weight > 0 {
		p.x, p.y = p.x/p.weight, p.y/p.weight
	}
	path.X, path.Y = append(path.X, p.x), append(path.Y, p.y)
}

// pulls are how the cells of a region go in the left and the right half of a box, and in
// its middle.
func pulls(m *travel.Map, region figure.Region, box figure.Box) (left, right, middle pull) {
	for i, in := range region.Cells {
		far := float64(m.Travel[i])
		if !in || far == 0 || box.Empty() {
			continue
		}
		x, _ := m.Bounds(i)
		off := float64(2*x + travel.CellSide - box.X0 - box.X1) // twice as far from the middle
		vx, vy := m.Vector(i)
		if off < 0 {
			left.add(vx, vy, far)
		} else {
			right.add(vx, vy, far)
		}
		if max(off, -off) < middleShare*float64(box.W()) {
			middle.add(vx, vy, far)
		}
	}
	return left, right, middle
}

// tellHalves finds where the halves of a shot's figure mirror each other while its
// middle is still. That they go parallel says nothing: so they do where the body goes.
// Nothing is told again of what parts that were shown do.
func (r *Result) tellHalves(index int, rate float64) {
	h, start := r.halves[index], r.Shots[index].Start
	for _, t := range twins.Find(h.left, h.right, rate) {
		if t.Way != twins.Mirrored || h.middle.Power(t) > middleMost*(h.left.Power(t)+h.right.Power(t))/2 {
			continue
		}
		t.Start, t.End = t.Start+start, t.End+start
		if !slices.ContainsFunc(r.Twins, func(o Twin) bool { return o.Shot == index && o.Start <= t.End && t.Start <= o.End }) {
			r.Twins = append(r.Twins, Twin{index, NoPart, NoPart, t})
		}
	}
}
