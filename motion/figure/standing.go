package figure

import (
	"image"
	"math"
)

// The plate holds what a rooted figure never moves: its legs, mostly. That part
// is sought in the plate, next to what moves.

// movedLeast is in how many of the sampled frames a pixel must differ from the
// plate to have moved.
const movedLeast = 2

// standing finds the part of a figure that the plate holds. ground is the box
// of all that moves of it, canvas pixels. The mask, of canvas size, is nil where
// nothing certain is found.
func (p *Plate) standing(ground Box, silhouettes []Silhouette) (*Mask, error) {
	v := newWindow(ground, image.Pt(p.canvas.W, p.canvas.H), p.world.h)
	if !v.judges() {
		return nil, nil
	}
	m, err := newMask(v.w, v.h)
	if err != nil {
		return nil, err
	}
	p.strange(m, v)
	m.open(bridgeSide)
	m.fill()
	ok, err := m.keep(v, p.moved(ground, silhouettes))
	if !ok || err != nil {
		m.close()
		return nil, err
	}
	return m, nil
}

// bridgeSide is the widest bridge, in layer pixels, to something beside the
// figure that is cut: less than a wrist.
const bridgeSide = 3

// moved marks the canvas pixels inside b that differ from the plate in several
// of the sampled frames.
func (p *Plate) moved(b Box, silhouettes []Silhouette) []bool {
	counts := make([]uint8, p.canvas.W*p.canvas.H)
	for _, t := range pick(len(silhouettes), plateSamples) {
		silhouettes[t].each(func(x, y int) {
			fx, fy := p.world.place(t, float64(x), float64(y))
			cx, cy := int(math.Round(fx)), int(math.Round(fy))
			if cx >= max(0, b.X0) && cy >= max(0, b.Y0) && cx < min(p.canvas.W, b.X1) && cy < min(p.canvas.H, b.Y1) {
				counts[cy*p.canvas.W+cx]++
			}
		})
	}
	moved := make([]bool, len(counts))
	for i, n := range counts {
		moved[i] = n >= movedLeast
	}
	return moved
}

// legShare is the longest gap between what moves or stands and feet below it, as
// a share of the height down to them: trousers may look like the ground, and legs
// are half of a figure.
const legShare = 0.4

// keep leaves in m only those pieces that touch what moved, or lie below it as
// feet do, and end before the window's sides and top; what goes on beyond them is
// a thing of the set. It reports whether any is left.
func (m *Mask) keep(v window, moved []bool) (bool, error) {
	l := newLabeller()
	defer l.close()
	var feet []component
	var body Box
	for i, in := range moved {
		if in {
			body = body.Union(Box{i % m.W, i / m.W, i%m.W + 1, i/m.W + 1})
		}
	}
	left := false
	for _, c := range l.components(nil, m) {
		touches := false
		if err := l.each(c, m.W, func(i int) { touches = touches || moved[i] }); err != nil {
			return false, err
		}
		switch out := c.box.X0 <= v.X0 && v.X0 > 0 || c.box.X1 >= v.X1 && v.X1 < v.w || c.box.Y0 <= v.Y0; {
		case touches && !out:
			left, body = true, body.Union(c.box)
			continue
		case !out:
			feet = append(feet, c)
			continue
		}
		if err := l.clear(m, c); err != nil {
			return false, err
		}
	}
	for _, c := range feet {
		if c.box.under(body) {
			left = true
			continue
		}
		if err := l.clear(m, c); err != nil {
			return false, err
		}
	}
	return left, nil
}

// under reports whether b lies below a body as its feet do.
func (b Box) under(body Box) bool {
	gap := b.Y0 - body.Y1
	return b.X0 >= body.X0 && b.X1 <= body.X1 && b.Y1 > body.Y1 && float64(gap) <= legShare*float64(b.Y1-body.Y0)
}

// clear takes a piece of the mask labelled last out of m.
func (l *labeller) clear(m *Mask, c component) error {
	return l.each(c, m.W, func(i int) { m.Pix[i] = 0 })
}
