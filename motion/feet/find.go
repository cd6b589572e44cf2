package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"
)

// Found is what Find saw in a stretch. Frames count from its first.
type Found struct {
	Contacts []Contact // in order of their starts
	Flights  []Flight
	Impacts  []Impact
	Outside  []Outside // where feet are below the picture
	Trails   []Trail   // where marked feet were followed to
}

// Find tells what stands on the ground, what flies and what bounces. Of figures
// without an outline it tells where marked feet stand.
func Find(s *Stretch) (*Found, error) {
	var out Found
	if s.outlined() {
		s.Figures = slices.Clone(s.Figures)
		for i := range s.Figures {
			s.Figures[i] = s.withShoes(i)
		}
	}
	for i := range s.Figures {
		one, err := s.find(i, &s.Figures[i])
		if err != nil {
			return nil, err
		}
		out.add(i, one)
	}
	slices.SortStableFunc(out.Contacts, func(a, b Contact) int { return a.Start - b.Start })
	slices.SortStableFunc(out.Flights, func(a, b Flight) int { return a.Start - b.Start })
	return &out, nil
}

// find tells the same of figure index, f; the Figure of what it returns is open.
func (s *Stretch) find(index int, f *figure.Figure) (one Found, err error) {
	if !s.outlined() {
		one.Contacts, one.Trails, err = s.byHand(index, f, nil)
		return one, err
	}
	for t := f.Start; t <= f.End(); t++ {
		s.Bodies[t].Tidy(f.At(t))
	}
	b := s.body(f)
	if impacts, ok := b.bounces(); ok && !s.marked(index) {
		return Found{Impacts: impacts}, nil
	}
	hops := s.hops(b, f)
	contacts, outside := s.visible(s.landed(s.contacts(f), hops), b.outside(s.Rate), b.height)
	one.Outside = outside
	if one.Contacts, one.Trails, err = s.byHand(index, f, contacts); err != nil {
		return one, err
	}
	if s.trusts(b, f, contacts) { // else its feet are not to be seen
		one.Contacts = append(one.Contacts, unmarked(contacts, one.Trails)...)
	}
	one.Flights = flown(withHops(s.flights(b, f, one.Contacts), hops), one.Trails)
	return one, nil
}

// trusts reports whether what seems to stand of a figure may be its feet. Where the
// ground is shown, what stands there is.
func (s *Stretch) trusts(b *body, f *figure.Figure, contacts []Contact) bool {
	if b.cutOff() {
		return false
	}
	return s.Line != nil || !crowded(contacts) && (b.whole(f) || b.low(contacts) && s.steps(b, f, contacts))
}

// lowMost is the share of the contacts of a figure of which not all is known that must
// lie near the lowest: feet do, elbows and hems lie anywhere.
const lowMost = 0.7

// low reports whether most contacts are as low as what a figure stands on.
func (b *body) low(contacts []Contact) bool {
	lowest, n := 0.0, 0
	for _, c := range contacts {
		lowest = max(lowest, c.Y)
	}
	for _, c := range contacts {
		if c.Y >= lowest-lowShare*b.height {
			n++
		}
	}
	return float64(n) >= lowMost*float64(len(contacts))
}

// add takes over what was found of a figure.
func (out *Found) add(index int, one Found) {
	for _, c := range one.Contacts {
		c.Figure = index
		out.Contacts = append(out.Contacts, c)
	}
	for _, f := range one.Flights {
		f.Figure = index
		out.Flights = append(out.Flights, f)
	}
	for _, im := range one.Impacts {
		im.Figure = index
		out.Impacts = append(out.Impacts, im)
	}
	for _, o := range one.Outside {
		o.Figure = index
		out.Outside = append(out.Outside, o)
	}
	out.Trails = append(out.Trails, one.Trails...)
}

// A body is where a figure is, frame by frame, on the ground of its first
// frame: working pixels with the camera taken out.
type body struct {
	first  int // frame of the stretch
	seen   []bool
	x, y   []float64 // middle of its silhouette
	bottom []float64 // its lowest row
	w, h   []float64 // of its box, at the scale of the first frame
	fill   []float64 // share of its box that it fills
	cut    []bool    // it touches the rim of the picture
	below  []bool    // the lower rim of the picture cuts it off
	height float64   // of the figure
}

// body measures a figure's silhouette in every frame.
func (s *Stretch) body(f *figure.Figure) *body {
	b := &body{first: f.Start, height: f.HeightPx}
	for t := f.Start; t <= f.End(); t++ {
		b.add(s, f, t)
	}
	return b
}

func (b *body) add(s *Stretch, f *figure.Figure, t int) {
	const k = figure.Shrink
	box, shape := f.At(t), &s.Bodies[t]
	n, sx, sy, rim := 0.0, 0.0, 0.0, 0.0
	var seen figure.Box
	for y := max(0, box.Y0/k); y < min(shape.H, (box.Y1+k-1)/k); y++ {
		for x := max(0, box.X0/k); x < min(shape.W, (box.X1+k-1)/k); x++ {
			if shape.At(x, y) {
				n, sx, sy = n+1, sx+float64(x), sy+float64(y)
				if y >= s.bottom()/k-1 {
					rim++
				}
				seen = seen.Union(figure.Box{X0: x, Y0: y, X1: x + 1, Y1: y + 1})
			}
		}
	}
	if n == 0 {
		n = 1
	}
	x, y := s.ground(t, b.first, k*(sx/n+0.5), k*(sy/n+0.5))
	_, low := s.ground(t, b.first, k*(sx/n+0.5), float64(k*seen.Y1))
	scale := s.Path[b.first].Scale() / s.Path[t].Scale()
	b.seen = append(b.seen, !seen.Empty())
	b.x, b.y, b.bottom = append(b.x, x), append(b.y, y), append(b.bottom, low)
	b.w, b.h = append(b.w, scale*float64(k*seen.W())), append(b.h, scale*float64(k*seen.H()))
	b.fill = append(b.fill, n/max(1, float64(seen.W()*seen.H())))
	b.below = append(b.below, rim > 0 && rim >= rimShare*float64(seen.W()))
	b.cut = append(b.cut, seen.X0 <= 0 || seen.Y0 <= s.Above/k || seen.X1 >= shape.W || seen.Y1 >= s.bottom()/k)
}

// ground is where a place of the still world in frame t is in frame to.
func (s *Stretch) ground(t, to int, x, y float64) (float64, float64) {
	dx, dy := s.drift(t, to, x, y)
	return x + dx, y + dy
}

// whole reports whether f is seen from head to foot: what never leaves its place
// is so where the plate holds its legs.
func (b *body) whole(f *figure.Figure) bool { return !f.Rooted || f.Whole }

// limbs is the most that a figure stands on at a time; more are no feet but the
// grain of something that does not stand.
const limbs = 4

// crowded reports whether more contacts last at a time than there are limbs.
func crowded(contacts []Contact) bool {
	for _, c := range contacts {
		n := 0
		for _, o := range contacts {
			if o.Start <= c.Start && c.Start <= o.End {
				n++
			}
		}
		if n > limbs {
			return true
		}
	}
	return false
}

const (
	// stepsLeast is how many contacts on one ground that begin and end in the stretch
	// tell feet from elbows and hems, which stay where they are; stepsInTurn is how many
	// of them must follow each other. All are of a kind: brief, as of what runs or
	// skips, or not.
	stepsLeast, stepsInTurn = 3, 2
	// legs is how many feet stand: beside two that stay, nothing steps.
	legs = 2
	// carriedShare is in what share of the frames from the first step to the last
	// something must stand, or the figure fly freely: what turns or waves comes low
	// now and then, and is borne by nothing between.
	carriedShare = 0.6
)

// steps reports whether what f, whose body is b, stands on comes and goes.
func (s *Stretch) steps(b *body, f *figure.Figure, contacts []Contact) bool {
	w := s.walker(f)
	w.measureHeights()
	return slices.ContainsFunc(w.levels(contacts), func(level []Contact) bool {
		var kinds [2][]Contact
		for _, c := range level {
			switch {
			case c.Start <= f.Start || c.End >= f.End() || outlast(contacts, c) >= legs:
			case w.brief(c):
				kinds[0] = append(kinds[0], c)
			default:
				kinds[1] = append(kinds[1], c)
			}
		}
		return slices.ContainsFunc(kinds[:], func(k []Contact) bool {
			return len(k) >= stepsLeast && inTurn(k) >= stepsInTurn && s.carried(b, f, contacts, k)
		})
	})
}

// outlast is how many contacts begin before c and go on after it.
func outlast(contacts []Contact, c Contact) (n int) {
	for _, o := range contacts {
		if o.Start < c.Start && o.End > c.End {
			n++
		}
	}
	return n
}

// carried reports whether contacts and free flights bear a figure from its first step
// to its last.
func (s *Stretch) carried(b *body, f *figure.Figure, contacts, steps []Contact) bool {
	first, last := math.MaxInt, 0
	for _, c := range steps {
		first, last = min(first, c.Start), max(last, c.End)
	}
	borne := make([]bool, last-first+1)
	bear := func(start, end int) {
		for t := max(start, first); t <= min(end, last); t++ {
			borne[t-first] = true
		}
	}
	for _, c := range contacts {
		bear(c.Start, c.End)
	}
	for _, g := range s.flights(b, f, contacts) {
		if !g.OffParabola {
			bear(g.Start, g.End)
		}
	}
	n := 0
	for _, is := range borne {
		if is {
			n++
		}
	}
	return float64(n) >= carriedShare*float64(len(borne))
}

// inTurn is how many of some contacts can be taken so that each begins after the
// one before has ended.
func inTurn(list []Contact) (n int) {
	slices.SortStableFunc(list, func(a, b Contact) int { return a.End - b.End })
	last := math.MinInt
	for _, c := range list {
		if c.Start > last {
			n, last = n+1, c.End
		}
	}
	return n
}

func (b *body) last() int { return b.first + len(b.seen) - 1 }
