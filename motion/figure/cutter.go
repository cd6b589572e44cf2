package figure

import (
	"image"
	"math"
	"slices"

	"holdfast/motion/figure/cut"
	"holdfast/motion/flow"
)

const (
	// aroundShare is how much of the ground around a box is looked at to tell the
	// figure in it from, as a share of the box's longer side.
	aroundShare = 0.15
	// leastCut is the least share of a box that a figure cut out of it fills: a tall
	// thin one with its arms out fills a tenth.
	leastCut = 0.05
	// shownRounds and rimRounds are how often the colours of figure and ground are
	// learnt anew, in the frame that is shown and in those after it.
	shownRounds, rimRounds = 5, 2
	// sureShare is how deep inside its silhouette, in figure heights, a figure surely
	// is in the next frame, and strayShare how far beyond it may reach: a hand goes
	// as far in 1/24 second.
	sureShare, strayShare = 0.02, 0.05
	// lostArea is by what factor the area of a figure may change from the frame that
	// is shown before it is lost.
	lostArea = 3.0
	// sameFigure is how much of a box must lie on a figure for it to show that one
	// again.
	sameFigure = 0.5
)

// A shownFigure is a figure cut out of the frames around those that show it.
type shownFigure struct {
	marks []Mark
	cuts  []*shape // by frame, nil where it was not seen
}

// A shape is a figure cut out of one frame.
type shape struct {
	pix  []uint8 // as cut has them, row by row over the whole layer
	box  Box     // layer pixels
	area int     // layer pixels
	pace float64 // layer pixels that its middle went from the frame it was told by
}

// cutOut cuts the shown figures out of all frames.
func cutOut(layers []*Layer, wd *world, bodies []Silhouette, marks []Mark) ([]*shownFigure, error) {
	dis, err := flow.NewDIS(flow.Fast)
	if err != nil {
		return nil, err
	}
	defer dis.Close()
	var list []*shownFigure
	for _, m := range marks {
		f := shownBy(list, m)
		if f == nil {
			f = &shownFigure{}
			list = append(list, f)
		}
		f.marks = append(f.marks, m)
		if err := (&cutter{layers: layers, world: wd, bodies: bodies, dis: dis}).follow(f); err != nil {
			return nil, err
		}
	}
	return slices.DeleteFunc(list, func(f *shownFigure) bool {
		return !slices.ContainsFunc(f.cuts, func(c *shape) bool { return c != nil })
	}), nil
}

// shownBy is the figure that a mark shows again, nil for a new one.
func shownBy(list []*shownFigure, m Mark) *shownFigure {
	for _, f := range list {
		if c := f.cuts[m.Frame]; c != nil {
			b := c.box.scale(Shrink)
			if float64(b.Overlap(m.Box)) >= sameFigure*float64(min(b.W()*b.H(), m.Box.W()*m.Box.H())) {
				return f
			}
		}
	}
	return nil
}

// figure is f as all other figures are, its size and place settled.
func (f *shownFigure) figure(wd *world) Figure {
	var out Figure
	for t, c := range f.cuts {
		if c == nil {
			continue
		}
		if len(out.Boxes) == 0 {
			out.Start = t
		}
		out.put(t, c.box)
	}
	out.settle(wd)
	// All of it is seen, whether or not it leaves its place.
	var heights []int
	for _, b := range out.Boxes {
		if !b.Empty() {
			heights = append(heights, b.H())
		}
	}
	slices.Sort(heights)
	out.Rooted, out.HeightPx = false, float64(heights[len(heights)/2])
	return out
}

// addTo marks f in the silhouettes of its frames.
func (f *shownFigure) addTo(bodies []Silhouette) {
	for t, c := range f.cuts {
		if c == nil {
			continue
		}
		for i, v := range c.pix {
			if cut.IsThing(v) {
				bodies[t].set(i)
			}
		}
	}
}

// A cutter cuts a figure out of one frame after the other.
type cutter struct {
	layers []*Layer
	world  *world
	bodies []Silhouette // what differs from the plate, which may be no figure
	dis    *flow.DIS
	field  flow.Field
	ground memory
	shown  sample
}

// A sample is what a figure and its ground look like where they were shown.
type sample struct{ picture, mask []uint8 }

// follow cuts f out of all frames, each from the frame nearest to it that is shown.
func (c *cutter) follow(f *shownFigure) error {
	f.cuts = make([]*shape, len(c.layers))
	slices.SortStableFunc(f.marks, func(a, b Mark) int { return a.Frame - b.Frame })
	for k, m := range f.marks {
		first, last := 0, len(c.layers)-1
		if k > 0 {
			first = (f.marks[k-1].Frame + m.Frame + 1) / 2
		}
		if k+1 < len(f.marks) {
			last = (m.Frame+f.marks[k+1].Frame+1)/2 - 1
		}
		if err := c.spread(f, m, first, last); err != nil {
			return err
		}
	}
	return nil
}

// spread cuts f out of the frames from first to last, starting from a mark.
func (c *cutter) spread(f *shownFigure, m Mark, first, last int) error {
	c.shown = sample{}
	start, err := c.start(m)
	if err != nil || start == nil {
		return err
	}
	f.cuts[m.Frame] = start
	for _, by := range []int{1, -1} {
		s := start
		c.ground = newMemory(c.world)
		c.remember(start, m.Frame)
		for t := m.Frame + by; t >= first && t <= last; t += by {
			if s, err = c.next(s, t-by, t); err != nil {
				return err
			}
			if s == nil || s.area*lostArea < start.area || s.area > lostArea*start.area {
				break
			}
			c.remember(s, t)
			f.cuts[t] = s
		}
	}
	return nil
}

// start cuts a figure out of the frame that shows it; nil says that nothing stands
// out in its box.
func (c *cutter) start(m Mark) (*shape, error) {
	l := c.layers[m.Frame]
	whole := Box{0, 0, l.W, l.H}
	b := Box{m.Box.X0 / Shrink, m.Box.Y0 / Shrink, (m.Box.X1 + Shrink - 1) / Shrink, (m.Box.Y1 + Shrink - 1) / Shrink}.clip(whole)
	if b == whole {
		b = b.Grow(-1) // there must be ground to tell it from
	}
	s := &shape{pix: make([]uint8, l.W*l.H)}
	for y := b.Y0; y < b.Y1; y++ {
		for x := b.X0; x < b.X1; x++ {
			s.pix[y*l.W+x] = cut.LikelyThing
		}
	}
	around := max(2, int(aroundShare*float64(max(b.W(), b.H()))))
	all := slices.Clone(s.pix)
	if err := c.cut(s, l, b.Grow(around).clip(whole), shownRounds); err != nil {
		return nil, err
	}
	if float64(s.area) < leastCut*float64(b.W()*b.H()) {
		s.differing(&c.bodies[m.Frame], all)
	}
	if s.area == 0 {
		return nil, nil
	}
	return s, nil
}

// next cuts a figure out of frame t, going by its shape in frame from.
func (c *cutter) next(s *shape, from, t int) (*shape, error) {
	l := c.layers[t]
	whole := image.Rect(0, 0, l.W, l.H)
	out := &shape{pix: slices.Clone(s.pix)}
	if l.W >= flow.MinSide && l.H >= flow.MinSide {
		if err := c.dis.Calc(&c.field, l.lumaIn(whole), c.layers[from].lumaIn(whole)); err != nil {
			return nil, err
		}
		c.carry(out, s, l, c.layers[from])
	}
	height := float64(s.box.H())
	far := max(2, int(strayShare*height), int(math.Ceil(s.pace))+1)
	if err := out.doubt(l.W, l.H, max(1, int(sureShare*height)), far); err != nil {
		return nil, err
	}
	likely := slices.Clone(out.pix)
	c.recognise(out, t)
	around := max(2, int(aroundShare*float64(max(s.box.W(), s.box.H()))))
	if err := c.cut(out, l, s.box.Grow(around).clip(Box{0, 0, l.W, l.H}), rimRounds); err != nil {
		return nil, err
	}
	if out.area*lostArea < s.area {
		out.differing(&c.bodies[t], likely)
	}
	if out.area == 0 {
		return nil, nil
	}
	out.pace = out.box.apart(s.box)
	return out, nil
}

// differing takes for s what differs from the plate where it may be: a figure of
// the colours of its ground cannot be cut out by them.
func (s *shape) differing(body *Silhouette, mayBe []uint8) {
	s.clear()
	body.each(func(x, y int) {
		if mayBe[y*body.W+x] != cut.Ground {
			s.add(x, y, body.W)
		}
	})
}

// carry lays a shape where flow says that it came from; what looks otherwise there
// only likely came from it.
func (c *cutter) carry(dst, src *shape, l, before *Layer) {
	for i := range dst.pix {
		u, v := c.field.At(i%l.W, i/l.W)
		x, y := i%l.W+int(math.Round(float64(u))), i/l.W+int(math.Round(float64(v)))
		dst.pix[i] = cut.Ground
		if x < 0 || y < 0 || x >= l.W || y >= l.H || !cut.IsThing(src.pix[y*l.W+x]) {
			continue
		}
		dst.pix[i] = cut.LikelyThing
		if apartBy(l.Pix[i*channels:], before.Pix[(y*l.W+x)*channels:]) < leastFigure {
			dst.pix[i] = cut.Thing
		}
	}
}

// doubt leaves sure only what lies so deep inside a shape and is sure to come from
// it, or so far outside it, pixels.
func (s *shape) doubt(w, h, deep, far int) error {
	m, err := newMask(w, h)
	if err != nil {
		return err
	}
	defer m.close()
	for i, v := range s.pix {
		m.Pix[i] = 0
		if cut.IsThing(v) {
			m.Pix[i] = 255
		}
	}
	was := slices.Clone(m.Pix)
	m.shrink(deep)
	sure := slices.Clone(m.Pix)
	copy(m.Pix, was)
	m.grow(far)
	for i, v := range s.pix {
		switch {
		case sure[i] != 0 && v == cut.Thing:
		case was[i] != 0:
			s.pix[i] = cut.LikelyThing
		case m.Pix[i] != 0:
			s.pix[i] = cut.LikelyGround
		default:
			s.pix[i] = cut.Ground
		}
	}
	return nil
}

// cut decides what is doubtful of s in frame l inside b, and takes its measure.
func (c *cutter) cut(s *shape, l *Layer, b Box, rounds int) error {
	picture, mask := s.inside(l, b)
	var seen [4]int
	for _, v := range mask {
		seen[v]++
	}
	s.clear()
	if seen[cut.Thing]+seen[cut.LikelyThing] == 0 {
		return nil
	}
	if seen[cut.Ground]+seen[cut.LikelyGround] > 0 {
		// What was shown lies below, so that its colours are not forgotten.
		picture, mask = append(picture, c.shown.picture...), append(mask, c.shown.mask...)
		for len(mask)%b.W() != 0 {
			picture, mask = append(picture, picture[len(picture)-3:]...), append(mask, mask[len(mask)-1])
		}
		if err := cut.Cut(picture, mask, b.W(), len(mask)/b.W(), rounds); err != nil {
			return err
		}
	}
	for k, v := range mask[:b.W()*b.H()] {
		if cut.IsThing(v) {
			s.add(b.X0+k%b.W(), b.Y0+k/b.W(), l.W)
		}
	}
	if c.shown.mask == nil {
		c.shown.picture, c.shown.mask = s.inside(l, b)
	}
	return nil
}

// inside are the colours of a frame, and what is known of them, in a box.
func (s *shape) inside(l *Layer, b Box) (picture, mask []uint8) {
	for y := b.Y0; y < b.Y1; y++ {
		for x := b.X0; x < b.X1; x++ {
			i := y*l.W + x
			p := l.Pix[i*channels:]
			picture, mask = append(picture, p[channelY], p[channelCb], p[channelCr]), append(mask, s.pix[i])
		}
	}
	return picture, mask
}

func (s *shape) clear() {
	clear(s.pix)
	s.box, s.area = Box{}, 0
}

// add takes in pixel (x, y) of a layer w wide.
func (s *shape) add(x, y, w int) {
	s.pix[y*w+x] = cut.Thing
	s.box, s.area = s.box.Union(Box{x, y, x + 1, y + 1}), s.area+1
}
