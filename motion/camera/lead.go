package camera

import (
	"image"
	"math"

	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

const (
	// leadWidth is the width, in cells, of the pictures in which a fast camera
	// is looked for: at the working size a cell is eight pixels, which dense flow
	// makes good with room to spare.
	leadWidth = 80
	// leadAcross and leadDown are the largest shares of the picture's width and
	// height that a lead may go: what two frames share beyond that is too little
	// to know the place by.
	leadAcross, leadDown = 0.5, 1.0 / 3
	// leadRows is the distance, in cells, between the rows that are compared.
	leadRows = 2
	// leadFlat is the least variance, in levels squared, that can be compared.
	leadFlat = 1.0
	// leadDoubt is the share of the points under which a fit to plain flow is
	// doubted, and over which a led one is believed.
	leadDoubt = 0.5
	// leadAlike is the least correlation of what two frames share along a lead:
	// two pictures of different things agree less wherever they are laid.
	leadAlike = 0.8
)

// Doubtful reports whether so few points follow the motion that the camera may
// have gone too fast for the flow.
func (f Fit) Doubtful() bool { return float64(f.Inliers) < leadDoubt*float64(f.Points) }

// Mends reports whether f, fitted to led flow, is to be believed where the
// doubtful fit to plain flow is not.
func (f Fit) Mends(doubtful Fit) bool {
	return f.Founded() && !f.Doubtful() && f.Inliers > doubtful.Inliers
}

// A Seeker looks for the shift of a picture that moved too fast for flow. It
// is not safe for use by several goroutines at once.
type Seeker struct {
	from, to coarse
}

// Lead returns about how far, in pixels, the picture shifted from one frame to
// the next; ok is false where that is no farther than flow can see, or where the
// frames have too little in common. All shifts
// are tried and that of the best normalised correlation wins (J. P. Lewis, "Fast
// Normalized Cross-Correlation", 1995), which brightness does not touch.
func (s *Seeker) Lead(from, to *picture.Picture) (lead image.Point, ok bool) {
	s.from.set(from)
	s.to.set(to)
	reachX, reachY := s.from.reach(s.from.w, leadAcross), s.from.reach(s.from.h, leadDown)
	best := s.likeness(0, 0)
	for dy := -reachY; dy <= reachY; dy++ {
		for dx := -reachX; dx <= reachX; dx++ {
			if l := s.likeness(dx, dy); l > best {
				best, lead = l, image.Pt(dx, dy)
			}
		}
	}
	far := max(lead.X, -lead.X, lead.Y, -lead.Y) > 1
	return lead.Mul(s.from.side), far && best >= leadAlike
}

// likeness is the correlation, -1..1, of the two pictures where they overlap
// when the earlier one is shifted by some cells.
func (s *Seeker) likeness(dx, dy int) float64 {
	var n, sa, sb, saa, sbb, sab float64
	x0, x1 := max(0, -dx), min(s.from.w, s.from.w-dx)
	for y := max(0, -dy); y < min(s.from.h, s.from.h-dy); y += leadRows {
		a := s.from.level[y*s.from.w+x0 : y*s.from.w+x1]
		b := s.to.level[(y+dy)*s.to.w+x0+dx:][:len(a)]
		for i, p := range a {
			q := b[i]
			sa, sb, saa, sbb, sab = sa+p, sb+q, saa+p*p, sbb+q*q, sab+p*q
		}
		n += float64(len(a))
	}
	va, vb := saa/n-sa/n*sa/n, sbb/n-sb/n*sb/n
	if !(va > leadFlat && vb > leadFlat) {
		return -1
	}
	return (sab/n - sa/n*sb/n) / math.Sqrt(va*vb)
}

// coarse is a picture at a few cells, each the mean luma of a square of pixels.
type coarse struct {
	w, h, side int
	level      []float64
}

// reach is how many of n cells a lead may go, so that flow still has room.
func (c *coarse) reach(n int, share float64) int {
	room := (flow.MinSide + c.side - 1) / c.side
	return max(0, min(int(share*float64(n)), n-room))
}

func (c *coarse) set(p *picture.Picture) {
	c.side = max(1, p.W/leadWidth)
	c.w, c.h = p.W/c.side, p.H/c.side
	c.level = append(c.level[:0], make([]float64, c.w*c.h)...)
	for y := range c.h * c.side {
		for x := range c.w * c.side {
			c.level[y/c.side*c.w+x/c.side] += float64(p.Y[y*p.W+x])
		}
	}
	for i := range c.level {
		c.level[i] /= float64(c.side * c.side)
	}
	c.centre()
}

// centre takes the mean of each row and column out: a bright sky over dark
// ground, or the bars of a wide picture, agree along any shift.
func (c *coarse) centre() {
	rows, columns, all := make([]float64, c.h), make([]float64, c.w), 0.0
	for i, v := range c.level {
		rows[i/c.w] += v / float64(c.w)
		columns[i%c.w] += v / float64(c.h)
		all += v / float64(len(c.level))
	}
	for i := range c.level {
		c.level[i] += all - rows[i/c.w] - columns[i%c.w]
	}
}
