package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"
)

// A Contact is one stand of something of a figure on the ground. Frames count
// from the first of the stretch, both ends included.
type Contact struct {
	Figure       int // index into Stretch.Figures
	Start, End   int
	X, Y         float64 // middle of the sole in frame Start, working pixels
	LastX, LastY float64 // the same in frame End
	Slip         float64 // across over the ground from Start to End, working pixels, positive to the right
	Share        float64 // the same in figure heights
}

const (
	// shortestContact is the least time something stands, seconds.
	shortestContact = 0.09
)

// contacts finds what of a figure stands on the ground.
func (s *Stretch) contacts(f *figure.Figure) []Contact {
	w := s.walker(f)
	w.follow()
	w.measureSole()
	w.part()
	w.follow()
	return w.contacts()
}

func (s *Stretch) walker(f *figure.Figure) *walker {
	w := &walker{s: s, height: f.HeightPx, ground: map[groundKey]place{}}
	w.draws = s.drawings(f.Start, f.End())
	for _, d := range w.draws {
		var ends []end
		for _, l := range w.lumps(f, d.start) {
			ends = append(ends, end{place{float64(l.x0), float64(l.yl)}, true, l}, end{place{float64(l.x1), float64(l.yr)}, false, l})
		}
		w.ends = append(w.ends, ends)
	}
	return w
}

// lumps are those of a figure in frame t; none where it goes on below the picture:
// what is lowest there is no foot.
func (w *walker) lumps(f *figure.Figure, t int) []lump {
	list := lumps(&w.s.Bodies[t], f.At(t), w.height)
	if slices.ContainsFunc(list, func(l lump) bool { return l.y >= w.s.H-figure.Shrink }) {
		return nil
	}
	return list
}

// A stand is a spot while it is on the ground.
type stand struct {
	*spot
	from, to int // drawings
}

// usual is the median way of a spot, figure heights a second.
func (w *walker) usual(p *spot) (x, y float64) {
	if len(p.by) == 0 {
		return 0, 0
	}
	var vx, vy []float64
	for k, b := range p.by {
		x, y := w.speed(b, p.first+k)
		vx, vy = append(vx, x), append(vy, y)
	}
	return median(vx), median(vy)
}

// settle cuts off a spot's coming and going, which differ from the given way.
func (w *walker) settle(p *spot, vx, vy float64) stand {
	steady := func(k int) bool {
		x, y := w.speed(p.by[k], p.first+k)
		return math.Hypot(x-vx, y-vy) <= steadyWay
	}
	a, b := 0, len(p.by)
	for a < b && !steady(a) {
		a++
	}
	for b > a && !steady(b-1) {
		b--
	}
	return stand{p, p.first + a, p.first + b}
}

func (st *stand) place(i int) place { return st.at[min(max(i, st.from), st.to)-st.first] }

func median(v []float64) float64 {
	v = slices.Clone(v)
	slices.Sort(v)
	return v[len(v)/2]
}

func (w *walker) contacts() []Contact {
	var stands []stand
	for _, p := range w.spots {
		x, y := w.usual(p)
		stands = append(stands, w.settle(p, x, y))
	}
	slices.SortStableFunc(stands, func(a, b stand) int { return (b.to - b.from) - (a.to - a.from) })
	sole := w.sole
	used := make([]bool, len(stands))
	var list []Contact
	for i := range stands {
		if used[i] {
			continue
		}
		used[i] = true
		group := []int{i}
		other, off := -1, 0.0
		for j := range stands {
			if used[j] || stands[j].left == stands[i].left {
				continue
			}
			if d, ok := w.oneFoot(&stands[i], &stands[j], sole); ok && (other < 0 || d < off) {
				other, off = j, d
			}
		}
		if other >= 0 {
			used[other] = true
			group = append(group, other)
		}
		// What else keeps the same place for the same time is the same foot.
		for j := range stands {
			if !used[j] && w.within(&stands[j], stands, group, sole) {
				used[j] = true
			}
		}
		list = append(list, w.contact(stands, group, sole))
	}
	list = slices.DeleteFunc(list, func(c Contact) bool {
		n := float64(c.End-c.Start+1) / w.s.Rate
		return n < shortestContact || n < slideLeast*math.Abs(c.Share)/(briefSlow*n)
	})
	return w.grounded(w.absorb(list, sole))
}

const (
	// briefContact is the time, seconds, under which only what stands still is
	// a contact, and only where there is no longer one beside it.
	briefContact = 0.25
	// slideLeast is how long something must slide, seconds, that goes at briefSlow,
	// figure heights a second; what goes faster must last longer in proportion: a
	// swinging foot is slow for a moment.
	slideLeast, briefSlow = 0.4, 0.2
	// oneSole is how close, in soles, the middles of two contacts of one time are
	// one contact.
	oneSole = 0.35
)

// absorb drops contacts that are part of longer ones.
func (w *walker) absorb(list []Contact, sole float64) []Contact {
	slices.SortStableFunc(list, func(a, b Contact) int { return (b.End - b.Start) - (a.End - a.Start) })
	var kept []Contact
	for _, c := range list {
		if !slices.ContainsFunc(kept, func(k Contact) bool { return w.partOf(c, k, sole) }) {
			kept = append(kept, c)
		}
	}
	return kept
}

const (
	// aloftShare is how far above all others of its time, in figure heights, a
	// contact is none but something held in the air: more than a stair.
	aloftShare = 0.12
	// aloftSeconds is how far apart in time the others may be.
	aloftSeconds = 1.0
	// aloftBrief and aloftBriefSeconds are the same for a brief contact: at the top
	// of a hop nothing moves.
	aloftBrief, aloftBriefSeconds = 0.03, 0.5
)

// grounded drops what keeps its place in the air.
func (w *walker) grounded(list []Contact) []Contact {
	var kept []Contact
	for i, c := range list {
		lowest, others := math.Inf(-1), 0
		limit, seconds := aloftShare, aloftSeconds
		if w.brief(c) {
			limit, seconds = aloftBrief, aloftBriefSeconds
		}
		for k, o := range list {
			gap := float64(max(c.Start, o.Start)-min(c.End, o.End)) / w.s.Rate
			if k == i || gap > seconds {
				continue
			}
			_, dy := w.still(o.Start, c.Start, o.X, o.Y)
			lowest = max(lowest, -(o.Y+dy-c.Y)/w.height)
			others++
		}
		if others == 0 || lowest > -limit {
			kept = append(kept, c)
		}
	}
	return kept
}

func (w *walker) brief(c Contact) bool {
	return float64(c.End-c.Start+1) < briefContact*w.s.Rate
}

func (w *walker) partOf(c, k Contact, sole float64) bool {
	brief := w.brief(c)
	gap := max(c.Start, k.Start) - min(c.End, k.End)
	if gap > 2 || gap > 0 && !brief {
		return false
	}
	t := min(max(c.Start, k.Start), k.End)
	cx, cy := w.still(k.Start, c.Start, k.X, k.Y)
	x := k.X + cx + k.Slip*float64(t-k.Start)/max(1, float64(k.End-k.Start))
	d, up := math.Abs(c.X-x), math.Abs(c.Y-k.Y-cy)
	if up > 0.1*w.height {
		return false
	}
	return d < oneSole*sole || brief && d < 1.2*sole
}

// oneFoot reports whether two stands may be heel and toe of one foot.
func (w *walker) oneFoot(a, b *stand, sole float64) (off float64, ok bool) {
	both := min(a.to, b.to) - max(a.from, b.from) + 1
	if both < 0 {
		return 0, false
	}
	i := max(a.from, b.from)
	p, q := a.place(i), b.place(i)
	if !a.left {
		p, q = q, p
	}
	d := q.x - p.x
	return math.Abs(d-sole)/sole - 0.05*float64(both), d > 0.4*sole && d < 1.25*sole && math.Abs(p.y-q.y) < 0.06*w.height
}

// besideSole and insideSole are how far, in soles, beside the end of a sole and
// towards its other end something belongs to it: what is followed are windows,
// which seldom begin just where a shoe does. Feet side by side are 0.4 apart.
const besideSole, insideSole = 0.35, 0.8

// within reports whether a stand lies on the sole of a group and in its time.
func (w *walker) within(st *stand, stands []stand, group []int, sole float64) bool {
	for _, g := range group {
		o := &stands[g]
		if both := min(st.to, o.to) - max(st.from, o.from) + 1; 5*both < 3*(st.to-st.from+1) {
			continue
		}
		i := max(st.from, o.from)
		p, q := st.place(i), o.place(i)
		if math.Abs(p.y-q.y) > 0.06*w.height {
			continue
		}
		if d := p.x - q.x; o.left && d > -besideSole*sole && d < insideSole*sole || !o.left && d < besideSole*sole && d > -insideSole*sole {
			return true
		}
	}
	return false
}

func (w *walker) contact(stands []stand, group []int, sole float64) Contact {
	vx, vy := w.usual(stands[group[0]].spot)
	from, to := math.MaxInt, 0
	var c Contact
	for _, g := range group {
		stands[g] = w.settle(stands[g].spot, vx, vy)
		if st := stands[g]; st.to > st.from || g == group[0] {
			from, to = min(from, stands[g].from), max(to, stands[g].to)
		}
	}
	n := 0.0
	for _, g := range group {
		st := &stands[g]
		p := st.place(from)
		if st.left {
			p.x += sole / 2
		} else {
			p.x -= sole / 2
		}
		k := float64(st.to-st.from) + 0.01
		c.X, c.Y, n = c.X+k*p.x, c.Y+k*p.y, n+k
	}
	c.X, c.Y = c.X/n, c.Y/n
	c.Start, c.End = w.draws[from].start, w.draws[to].end
	dx, dy := w.still(c.Start, c.End, c.X, c.Y)
	c.Slip = w.slip(stands, group, from, to, vx, vy)
	c.Share = c.Slip / w.height
	c.LastX, c.LastY = c.X+dx+c.Slip, c.Y+dy
	return c
}

// rollSeconds is how long, at either end of a contact, a sole rolls over heel or
// toe (common practice, no source).
const rollSeconds = 0.15

// slip adds up the ways of the steadiest part of a contact from drawing to
// drawing, pixels. While a sole rolls its ends move without slipping: then, and
// where something goes farther than usual or against it, the usual way counts.
func (w *walker) slip(stands []stand, group []int, from, to int, vx, vy float64) float64 {
	ways := make([]float64, 0, to-from)
	for i := from; i < to; i++ {
		ways = append(ways, w.steadiest(stands, group, i, vx, vy))
	}
	usual, roll := shorth(ways), int(math.Round(rollSeconds*w.s.Rate))
	sum := 0.0
	for k, v := range ways {
		if k < roll || k >= len(ways)-roll || v*usual < 0 || math.Abs(v) > math.Abs(usual) {
			v = usual
		}
		sum += v * w.draws[from+k].span(w.s.Rate) * w.height
	}
	return sum
}

// shorth is the mean of the half of some values that lies closest together: the
// usual one, however the others stray to one side. D. Andrews and others, "Robust
// Estimates of Location", 1972 (from memory).
func shorth(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Clone(v)
	slices.Sort(v)
	n := len(v)/2 + 1
	best := 0
	for i := 0; i+n <= len(v); i++ {
		if v[i+n-1]-v[i] < v[best+n-1]-v[best] {
			best = i
		}
	}
	sum := 0.0
	for _, x := range v[best : best+n] {
		sum += x
	}
	return sum / float64(n)
}

// steadiest is the way across out of drawing i, figure heights a second, of that
// stand of a group that differs least from the usual way.
func (w *walker) steadiest(stands []stand, group []int, i int, vx, vy float64) float64 {
	best, x := math.Inf(1), vx
	for _, g := range group {
		st := &stands[g]
		if i < st.from || i >= st.to {
			continue
		}
		u, v := w.speed(st.by[i-st.first], i)
		if d := math.Hypot(u-vx, v-vy); d < best {
			best, x = d, u
		}
	}
	return x
}
