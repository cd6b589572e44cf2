package figure

import "slices"

// A Doubt says why nothing is known of a figure on the step to a frame.
type Doubt string

// The doubts. None is the zero value.
const (
	Known    Doubt = ""
	Hidden   Doubt = "hidden"    // something passes before the lens
	Crossing Doubt = "crossing"  // another figure is before or behind it
	NotFound Doubt = "not found" // it was not told from its background
)

// crossShare is how much of the smaller of two boxes must lie in the other for
// the two figures to be crossing: a hand held out into the box of another is
// under it, and what moves there is counted for neither.
const crossShare = 0.25

// An Own is what one figure did, apart from all others. Its lists hold one value
// a frame from Start, for the step that led there; the first is none.
type Own struct {
	Start int
	Cells []Region  // its own on the frame before
	Mean  []float64 // mean travel over its area, working pixels
	Top   []float64 // of the part that went farthest where flow lost it, working pixels
	Doubt []Doubt
}

// own parts the travel of all figures among them, in the order of found.Figures.
func (s *search) own(found *Found) []Own {
	list := make([]Own, len(found.Figures))
	for k := range found.Figures {
		found.Figures[k].touch(s.link.world)
	}
	for k := range list {
		if !found.Figures[k].Rooted {
			list[k].Start = found.Figures[k].Start
		}
	}
	for t := range found.Regions {
		cells := s.partCells(found, t)
		works, all := s.works(found, t, cells)
		total := found.Mean[t] * s.ownArea(found, found.Regions[max(0, t-1)], t)
		for k := range list {
			f, o := &found.Figures[k], &list[k]
			if t < o.Start || t > f.End() && !f.Rooted {
				continue
			}
			mean, top := 0.0, 0.0
			if area := s.ownArea(found, cells[k], t); all > 0 && area > 0 {
				mean = total * works[k] / all / area
			}
			if s.lostMost(t, cells[k]) {
				top = found.Top[t]
			}
			o.Cells, o.Mean, o.Top = append(o.Cells, cells[k]), append(o.Mean, mean), append(o.Top, top)
			o.Doubt = append(o.Doubt, s.doubt(found, k, t, o.Start))
		}
	}
	return list
}

// touch notes all that a figure that never leaves its place ever touches.
func (f *Figure) touch(wd *world) {
	f.touches = Box{}
	for k, b := range f.Boxes {
		if t := f.Start + k; f.Rooted && !b.Empty() {
			f.touches = f.touches.Union(b.around(func(x, y float64) (float64, float64) { return wd.place(t, x/Shrink, y/Shrink) }))
		}
	}
}

// place is where a figure is in a frame, working pixels. What is seen of one that
// never leaves its place is no more than what stirs: all it ever touches is its own,
// for as long as the camera sees it.
func (s *search) place(f *Figure, t int) Box {
	if !f.Rooted {
		return f.At(t)
	}
	if s.link.world.still {
		return f.Union()
	}
	b := f.touches.around(func(x, y float64) (float64, float64) { return s.link.world.seen(t, x, y) })
	return b.clip(Box{0, 0, s.link.world.w, s.link.world.h}).scale(Shrink)
}

// partCells gives each figure the cells of frame t-1 that are its own. What lies
// in the places of two is given to neither.
func (s *search) partCells(found *Found, t int) []Region {
	from := found.Regions[max(0, t-1)]
	list := make([]Region, len(found.Figures))
	for k := range list {
		list[k] = newRegion(s.grid)
	}
	for i, in := range from.Cells {
		if !in {
			continue
		}
		x, y := s.grid.Bounds(i)
		owner, owners := 0, 0
		for k := range found.Figures {
			// Regions reach a cell beyond what is seen.
			b := s.place(&found.Figures[k], max(0, t-1))
			if !b.Empty() && b.Grow(cellSide*Shrink).near(x+cellSide*Shrink/2, y+cellSide*Shrink/2) {
				owner, owners = k, owners+1
			}
		}
		if owners == 1 {
			list[owner].Cells[i] = true
		}
	}
	return list
}

// works is how much each figure moved on the way to frame t, layer pixels summed
// over their pixels, and all of them together.
func (s *search) works(found *Found, t int, cells []Region) (list []float64, all float64) {
	list = make([]float64, len(cells))
	m := s.maps[t]
	if t == 0 || m == nil {
		return list, 0
	}
	way := s.ways[t]
	for k, r := range cells {
		for i, in := range r.Cells {
			if in && (way.cells == nil || !way.cells[i]) {
				list[k] += float64(m.Travel[i]) * s.share(found, t, i) / Shrink
			}
		}
		if mine, lost := s.lostIn(t, r); lost > 0 {
			list[k] += way.sum * float64(mine) / float64(lost)
		}
		all += list[k]
	}
	return list, all
}

// lostIn counts the cells that flow lost on the way to frame t, in a region and in
// all.
func (s *search) lostIn(t int, r Region) (mine, all int) {
	for i, lost := range s.ways[t].cells {
		if lost {
			all++
			if r.Cells[i] {
				mine++
			}
		}
	}
	return mine, all
}

// lostMost reports whether most of what flow lost lies in a region: then the part
// that went farthest is taken to be there.
func (s *search) lostMost(t int, r Region) bool {
	mine, all := s.lostIn(t, r)
	return 2*mine > all
}

// ownArea is the area of the figures in some cells around frame t, layer pixels.
func (s *search) ownArea(found *Found, r Region, t int) float64 {
	sum := 0.0
	for i, in := range r.Cells {
		if in {
			sum += s.share(found, max(1, t), i)
		}
	}
	return sum
}

// doubt says what stands against what figure k is seen to do on the way to frame t;
// it was first seen at start.
func (s *search) doubt(f *Found, k, t, start int) Doubt {
	g := &f.Figures[k]
	if f.Hidden[t] {
		return Hidden
	}
	before := max(start, t-1)
	here, there := s.place(g, t), s.place(g, before)
	if here.Empty() || there.Empty() {
		return NotFound
	}
	crosses := func(other Figure) bool {
		return met(here, s.place(&other, t)) || met(there, s.place(&other, before))
	}
	if slices.ContainsFunc(f.Figures[:k], crosses) || slices.ContainsFunc(f.Figures[k+1:], crosses) {
		return Crossing
	}
	return Known
}

// met reports whether two boxes cover so much of each other that what moves there
// may be either's.
func met(a, b Box) bool {
	small := min(a.W()*a.H(), b.W()*b.H())
	return small > 0 && float64(a.Overlap(b)) >= crossShare*float64(small)
}
