package camera

import (
	"math"

	"holdfast/motion/picture"
)

const (
	// standGain is the drop in squared deviations under which a camera stands:
	// the 0.999 quantile of chi squared with four degrees of freedom is 18.5,
	// doubled for neighbours that err together.
	standGain = 37.0
	// decisive is the same for a single cell to take sides: 3 deviations,
	// doubled alike.
	decisive = 18.0
	// leastSpread is how widely, against all of the picture, the cells must lie
	// that want the camera to have moved: less is a figure on a plain ground.
	leastSpread = 0.2
	// leastAcross is how widely across the picture all there is to follow must lie
	// to move a camera that has been standing: before a plain wall that is the head
	// and shoulders of a close shot, which do not fill half of its width, while
	// what stands behind a figure does.
	leastAcross = 0.5
	// standSteps is how many steps back a camera is known by: half a second at 24 a
	// second. One that stands stood on more than half of them.
	standSteps = 12
)

// A habit is how the camera was seen to stand of late. The zero habit knows
// nothing of it.
type habit struct {
	stood [standSteps]bool
	next  int
}

// note adds what a step shows. One that shows little of the camera may be a cut
// or black, and what was known is forgotten.
func (h *habit) note(f Fit) {
	if !f.Founded() || f.Doubtful() {
		*h = habit{}
		return
	}
	h.stood[h.next] = f.Motion == Identity
	h.next = (h.next + 1) % standSteps
}

// stands reports whether the camera was seen to stand on most steps of late.
func (h *habit) stands() bool {
	n := 0
	for _, stood := range h.stood {
		if stood {
			n++
		}
	}
	return 2*n > standSteps
}

// standing reports whether the camera stood still, though p fits better than
// no motion at all: the gain is within what grain gives four free unknowns, or
// more cells speak against it than for it, or those that want it lie together
// as a figure does. A camera that stood before is not moved where all there is to
// follow lies together. refine must have been called just before.
func (r *refiner) standing(to *picture.Picture, p params, stood bool) bool {
	r.votes = append(r.votes[:0], make([]float64, r.g.cols*r.g.rows)...)
	scale := r.compare(to, p)
	r.vote(scale, -1)
	r.compare(to, params{s: Identity, gain: p.gain, bias: p.bias})
	r.vote(scale, 1)
	gain, against := 0.0, 0
	var wanting moments
	for cell, v := range r.votes {
		gain += v
		switch {
		case v > decisive:
			wanting.add(r.middle(cell))
		case v < -decisive:
			against++
		}
	}
	together := wanting.spread(r.g.w, r.g.h) < leastSpread || stood && r.followed().across(r.g.w) < leastAcross
	return gain < standGain || float64(against) >= wanting.n || together
}

// followed tells where there is something to follow.
func (r *refiner) followed() *moments {
	m := &moments{}
	for i := range r.samples {
		m.add(r.middle(r.samples[i].cell))
	}
	return m
}

// vote adds each sample's squared residual in deviations, bounded as by the
// biweight and times sign, to its cell.
func (r *refiner) vote(scale, sign float64) {
	for i, e := range r.residuals {
		if q := e / scale; !math.IsNaN(q) {
			r.votes[r.samples[i].cell] += sign * math.Min(q*q, tukey*tukey)
		}
	}
}

func (r *refiner) middle(cell int) (x, y float64) {
	x0, y0, x1, y1 := r.g.bounds(cell)
	return float64(x0+x1) / 2, float64(y0+y1) / 2
}

// moments sums up places.
type moments struct{ n, x, y, xx, xy, yy float64 }

func (m *moments) add(x, y float64) {
	m.n, m.x, m.y = m.n+1, m.x+x, m.y+y
	m.xx, m.xy, m.yy = m.xx+x*x, m.xy+x*y, m.yy+y*y
}

// spread is the area the places cover against that of a w by h picture: 1 for
// places spread evenly over all of it (twelve times the root of the
// determinant of their covariance, which is a twelfth a side for a rectangle).
func (m *moments) spread(w, h int) float64 {
	if m.n < 2 {
		return 0
	}
	x, y := m.x/m.n, m.y/m.n
	xx, xy, yy := m.xx/m.n-x*x, m.xy/m.n-x*y, m.yy/m.n-y*y
	return 12 * math.Sqrt(math.Max(0, xx*yy-xy*xy)) / float64(w*h)
}

// across is the same of the width alone.
func (m *moments) across(w int) float64 {
	if m.n < 2 {
		return 0
	}
	x := m.x / m.n
	return math.Sqrt(12*math.Max(0, m.xx/m.n-x*x)) / float64(w)
}
