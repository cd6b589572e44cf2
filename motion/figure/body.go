package figure

import "slices"

// bodyGap is the gap, as a share of the larger one's size, across which a body in the
// plate is looked for that holds two rooted pieces together: two arms are a trunk apart,
// which is less than either is long.
const bodyGap = 1.0

// joinBodies makes one figure of rooted pieces that hang together by what the plate
// holds of them: the arms of somebody who stands.
func joinBodies(p *Plate, silhouettes []Silhouette, figures []Figure) ([]Figure, error) {
	for i := 0; i < len(figures); i++ {
		for j := i + 1; j < len(figures); j++ {
			a, b := &figures[i], &figures[j]
			if !a.Rooted || !b.Rooted || !a.ground.beside(b.ground, bodyGap) {
				continue
			}
			one, err := p.holds(a.ground, b.ground, silhouettes)
			if err != nil {
				return nil, err
			}
			if one {
				figures[i] = a.with(*b)
				figures = slices.Delete(figures, j, j+1)
				j = i // the larger figure may reach farther
			}
		}
	}
	return figures, nil
}

// holds reports whether one thing in the plate lies in both of two boxes of the canvas,
// what moves there and is no part of the set.
func (p *Plate) holds(a, b Box, silhouettes []Silhouette) (bool, error) {
	m, err := p.standing(a.Union(b), silhouettes)
	if m == nil || err != nil {
		return false, err
	}
	defer m.close()
	l := newLabeller()
	defer l.close()
	for _, c := range l.components(nil, m) {
		inA, inB := false, false
		err := l.each(c, m.W, func(i int) {
			x, y := i%m.W, i/m.W
			inA, inB = inA || a.near(x, y), inB || b.near(x, y)
		})
		if err != nil || inA && inB {
			return inA && inB, err
		}
	}
	return false, nil
}

// beside reports whether the gap between two boxes is no more than a share of the
// larger one's longer side.
func (b Box) beside(c Box, share float64) bool {
	return b.Grow(int(share*float64(max(b.W(), b.H(), c.W(), c.H())))).Overlap(c) > 0
}
