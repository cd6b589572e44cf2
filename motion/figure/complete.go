package figure

import "slices"

// wholeShare is how much of a figure's height, from the top to the bottom of all
// that moves or stands of it, what stands must take up for each frame's box to be
// that of the whole figure: one that bends to half its height stands in another
// share of its frames than it bends.
const wholeShare = 0.7

// completeRooted adds to each rooted figure what the plate holds of it. Pieces
// that turn out to lie on one figure become one.
func (s *search) completeRooted(p *Plate, figures []Figure) ([]Figure, error) {
	// The liveliest first: it is surest to be a figure.
	slices.SortStableFunc(figures, func(a, b Figure) int { return compareTravel(b, a) })
	for i := 0; i < len(figures); i++ {
		if !figures[i].Rooted {
			continue
		}
		m, err := p.standing(figures[i].ground, s.silhouettes)
		if err != nil {
			return nil, err
		}
		if m == nil {
			continue
		}
		figures = absorb(figures, i, m.bounds())
		figures[i].complete(p.world, m, s.silhouettes)
		for t := figures[i].Start; t <= figures[i].End(); t++ {
			p.world.show(&s.bodies[t], m, t)
		}
		m.close()
	}
	return figures, nil
}

func compareTravel(a, b Figure) int {
	switch {
	case a.Travel < b.Travel:
		return -1
	case a.Travel > b.Travel:
		return 1
	}
	return 0
}

// absorb joins to figure i the later rooted ones whose ground lies mostly
// within b, canvas pixels.
func absorb(figures []Figure, i int, b Box) []Figure {
	for j := len(figures) - 1; j > i; j-- {
		g := figures[j].ground
		if figures[j].Rooted && 2*g.Overlap(b) > g.W()*g.H() {
			figures[i] = figures[i].with(figures[j])
			figures = slices.Delete(figures, j, j+1)
		}
	}
	return figures
}

// complete adds what stands, a mask on the canvas, to the boxes of f, and makes
// boxes for the frames before and after its track on which that is to be seen.
func (f *Figure) complete(wd *world, standing *Mask, silhouettes []Silhouette) {
	start, end := f.Start, f.End()
	for start > 0 && wd.stands(standing, start-1, &silhouettes[start-1]) {
		start--
	}
	for end < len(silhouettes)-1 && wd.stands(standing, end+1, &silhouettes[end+1]) {
		end++
	}
	boxes := make([]Box, 0, end-start+1)
	var heights []int
	for t := start; t <= end; t++ {
		b := f.At(t).Union(wd.view(standing, t).scale(Shrink))
		boxes = append(boxes, b)
		if !b.Empty() {
			heights = append(heights, b.H())
		}
	}
	f.Start, f.Boxes = start, boxes
	b := standing.bounds()
	all := f.ground.Union(b)
	f.Whole = len(heights) > 0 && float64(b.H()) >= wholeShare*float64(all.H())
	if f.Whole {
		slices.Sort(heights)
		f.HeightPx = float64(heights[len(heights)/2])
	} else if !f.bounces {
		f.HeightPx *= float64(all.H()) / float64(f.ground.H())
	}
}

// standsShare is how much of what stands must look in a frame as it does in the
// plate for it to be there.
const standsShare = 0.5

// stands reports whether frame t shows what stands; what differs from the plate
// in the frame is in its silhouette.
func (wd *world) stands(standing *Mask, t int, s *Silhouette) bool {
	n, same := 0, 0
	for i, v := range standing.Pix {
		if v == 0 {
			continue
		}
		n++
		x, y := wd.seen(t, float64(i%standing.W), float64(i/standing.W))
		if b := pixelBox(x, y); b.X0 >= 0 && b.Y0 >= 0 && b.X0 < wd.w && b.Y0 < wd.h && !s.At(b.X0, b.Y0) {
			same++
		}
	}
	return float64(same) >= standsShare*float64(n)
}

// view is the box in frame t, layer pixels, around what a mask on the canvas
// marks, as far as the frame sees it.
func (wd *world) view(m *Mask, t int) Box {
	var b Box
	for i, v := range m.Pix {
		if v != 0 {
			b = b.Union(pixelBox(wd.seen(t, float64(i%m.W), float64(i/m.W))))
		}
	}
	return Box{max(0, b.X0), max(0, b.Y0), min(wd.w, b.X1), min(wd.h, b.Y1)}
}

// bounds is the box around all that m marks.
func (m *Mask) bounds() Box {
	var b Box
	for i, v := range m.Pix {
		if v != 0 {
			b = b.Union(Box{i % m.W, i / m.W, i%m.W + 1, i/m.W + 1})
		}
	}
	return b
}
