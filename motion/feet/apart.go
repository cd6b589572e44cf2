package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"
)

// Trousers of the ground's colour are lost in noise, and what is left of a figure is
// its upper part with a shoe or two below it. The shoes are its own: they lie under it
// in most of its frames.

const (
	// legReach is how far below the box of a figure, in heights of that box, its shoes
	// may lie: legs are half of a figure, so as long as what is left of it.
	legReach = 1.0
	// legAside is how far beside the box they may step out.
	legAside = 0.2
	// shoeLeast is the least area of what is taken for shoes, in squares of the box's
	// height: a shoe is 0.15 by 0.05 heights, most of one must be there.
	shoeLeast = 0.004
	// shoeHigh is how high shoes are, in heights of the box, and shoeMass how much of all
	// that is marked below the box they must be: a reflection reaches on downward.
	shoeHigh, shoeMass = 0.12, 0.6
	// legGap is how far below the box they begin at least, in its heights: half of the
	// shins that are lost.
	legGap = 0.15
	// shoesShare is the share of a figure's frames that must show them.
	shoesShare = 0.5
)

// withShoes returns figure index with boxes down to the shoes that lie apart below
// it, if any, and stand while the body goes on. A reflection goes as its figure does,
// whose own feet then stand for much longer.
func (s *Stretch) withShoes(index int) figure.Figure {
	f := s.Figures[index]
	g, ok := s.longer(index)
	if !ok || float64(s.borne(&g)) < borneShare*float64(s.borne(&f)) {
		return f
	}
	return g
}

const (
	// borneSpeed is how fast, in figure heights a second, a body goes on that something
	// bears, rather than rests.
	borneSpeed = 0.05
	// borneShare is for how much of the time that something else stands shoes must:
	// hems that sway slowly seem to stand now and then.
	borneShare = 0.5
)

// borne is in how many frames something stands of a figure whose body goes on.
func (s *Stretch) borne(f *figure.Figure) (n int) {
	b, contacts := s.body(f), s.contacts(f)
	for i := 1; i < len(b.seen); i++ {
		t := b.first + i
		goes := math.Hypot(b.x[i]-b.x[i-1], b.y[i]-b.y[i-1])*s.Rate >= borneSpeed*b.height
		if goes && slices.ContainsFunc(contacts, func(c Contact) bool { return c.Start <= t && t <= c.End }) {
			n++
		}
	}
	return n
}

// longer is figure index with boxes down to what lies below it as shoes do; ok is
// false where that is so in too few of its frames.
func (s *Stretch) longer(index int) (f figure.Figure, ok bool) {
	f = s.Figures[index]
	boxes, longer := make([]figure.Box, len(f.Boxes)), []float64{}
	seen := 0
	for k, b := range f.Boxes {
		boxes[k] = b
		if b.Empty() {
			continue
		}
		seen++
		if down, ok := s.shoes(index, f.Start+k, b); ok {
			boxes[k] = b.Union(down)
			longer = append(longer, float64(boxes[k].H()-b.H()))
		}
	}
	if len(longer) == 0 || float64(len(longer)) < shoesShare*float64(seen) {
		return f, false
	}
	f.Boxes = boxes
	f.HeightPx += median(longer)
	return f, true
}

// shoes is the box around what is marked below box b of a figure in frame t, apart
// from other figures; ok is false where it looks like no shoes.
func (s *Stretch) shoes(index, t int, b figure.Box) (down figure.Box, ok bool) {
	const k = figure.Shrink
	shape, h := &s.Bodies[t], float64(b.H())
	aside := int(math.Round(legAside * h))
	var rows []int // of each pixel marked
	for y := b.Y1 / k; y < min(shape.H, (b.Y1+int(legReach*h))/k); y++ {
		for x := max(0, (b.X0-aside)/k); x < min(shape.W, (b.X1+aside)/k); x++ {
			if shape.At(x, y) && !s.others(index, t, k*x, k*y) {
				rows = append(rows, k*y)
				down = down.Union(figure.Box{X0: k * x, Y0: k * y, X1: k*x + k, Y1: k*y + k})
			}
		}
	}
	top := max(float64(down.Y1)-shoeHigh*h, float64(b.Y1)+legGap*h)
	n := 0
	for _, y := range rows {
		if float64(y) >= top {
			n++
		}
	}
	return down, float64(n*k*k) >= shoeLeast*h*h && float64(n) >= shoeMass*float64(len(rows))
}

// others reports whether a pixel of frame t lies in or under the box of another figure.
func (s *Stretch) others(index, t, x, y int) bool {
	for i := range s.Figures {
		b := s.Figures[i].At(t)
		if i != index && !b.Empty() && x >= b.X0 && x < b.X1 && y >= b.Y0 {
			return true
		}
	}
	return false
}
