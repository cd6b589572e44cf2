package feet

import (
	"image"
	"math"
	"slices"

	"holdfast/motion/figure"
	"holdfast/motion/flow"
)

// A Mark is a point on a foot, shown by hand, in working pixels of one frame.
type Mark struct {
	Frame int
	X, Y  float64
}

// A Trail is where a marked foot was followed to. Frames count from the first of
// the stretch, both ends included.
type Trail struct {
	Mark       int // index into Stretch.Marks
	Figure     int // index into Stretch.Figures
	Start, End int
}

const (
	// markReach is how far around a marked point, in figure heights, the foot is
	// followed: half its length or less, whichever way it points.
	markReach = 0.035
	// markLeast is the least reach, pixels.
	markLeast = 4.0
	// markSide is how many points a side the foot is followed by.
	markSide = 7
	// markMissed is by how much, in figure heights, the points may miss where they
	// came from, and markMissedLeast the least of it in pixels: more has been lost.
	markMissed, markMissedLeast = 0.01, 1.0
)

// markBeside is how far beside what is seen of a figure, in figure heights, a mark
// may be and still be on its foot: the plate may hold its legs.
const markBeside = 0.5

// A trail is a marked foot in each drawing in which it was followed.
type trail struct {
	mark  int
	first int // drawing of at[0]
	at    []place
	by    []step
}

// trails follows the marks that lie on a figure or nearest to it.
func (w *walker) trails(index int) ([]trail, error) {
	var list []trail
	for k, m := range w.s.Marks {
		if w.s.owner(m) != index {
			continue
		}
		i := slices.IndexFunc(w.draws, func(d drawing) bool { return d.start <= m.Frame && m.Frame <= d.end })
		if i < 0 {
			continue
		}
		t := trail{mark: k, first: i, at: []place{w.carry(place{m.X, m.Y}, m.Frame, w.draws[i].start)}}
		if err := w.trace(&t); err != nil {
			return nil, err
		}
		list = append(list, t)
	}
	return list, nil
}

// owner is the index of the figure that a mark belongs to, -1 for none.
func (s *Stretch) owner(m Mark) int {
	best, least := -1, math.Inf(1)
	for i := range s.Figures {
		b := s.Figures[i].At(m.Frame)
		if b.Empty() {
			continue
		}
		dx := max(float64(b.X0)-m.X, m.X-float64(b.X1), 0)
		dy := max(float64(b.Y0)-m.Y, m.Y-float64(b.Y1), 0)
		if d := math.Hypot(dx, dy); d < least && d <= markBeside*s.Figures[i].HeightPx {
			best, least = i, d
		}
	}
	return best
}

// marked reports whether a foot of figure index is marked.
func (s *Stretch) marked(index int) bool {
	return slices.ContainsFunc(s.Marks, func(m Mark) bool { return s.owner(m) == index })
}

// trace follows a trail both ways from its mark.
func (w *walker) trace(t *trail) error {
	for i := t.first; i+1 < len(w.draws); i++ {
		to, by, ok, err := w.tread(t.at[len(t.at)-1], i, i+1)
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		t.at, t.by = append(t.at, to), append(t.by, by)
	}
	for t.first > 0 {
		to, by, ok, err := w.tread(t.at[0], t.first, t.first-1)
		if err != nil {
			return err
		}
		if !ok {
			break
		}
		t.first--
		t.at = append([]place{to}, t.at...)
		t.by = append([]step{{-by.dx, -by.dy, true}}, t.by...)
	}
	return nil
}

// tread follows a foot from its place in drawing i to drawing k beside it.
func (w *walker) tread(p place, i, k int) (to place, by step, ok bool, err error) {
	a, b := w.frames(i, k)
	p = w.carry(p, w.draws[i].start, a)
	dx, dy, missed, err := flow.Median(w.s.gray(a), w.s.gray(b), w.pointsOn(a, p))
	if err != nil || missed > max(markMissedLeast, markMissed*w.tallIn(a)) {
		return p, step{}, false, err
	}
	to = place{p.x + dx, p.y + dy}
	if to.x < 0 || to.y < 0 || to.x >= float64(w.s.W) || to.y >= float64(w.s.H) {
		return p, step{}, false, nil
	}
	cx, cy := w.still(a, b, p.x, p.y)
	return w.carry(to, b, w.draws[k].start), step{dx - cx, dy - cy, true}, true, nil
}

// pointsOn are the points by which a foot at a place of frame t is followed: those on
// the figure, or all where none is.
func (w *walker) pointsOn(t int, p place) []flow.Point {
	reach := max(markLeast, markReach*w.tallIn(t))
	var all, on []flow.Point
	for i := range markSide * markSide {
		u := 2*float64(i%markSide)/(markSide-1) - 1
		v := 2*float64(i/markSide)/(markSide-1) - 1
		q := flow.Point{X: p.x + u*reach, Y: p.y + v*reach}
		all = append(all, q)
		if w.s.outlined() && w.s.figureAt(t, int(q.X), int(q.Y)) {
			on = append(on, q)
		}
	}
	if len(on) < markSide {
		return all
	}
	return on
}

func (s *Stretch) gray(t int) *image.Gray {
	return &image.Gray{Pix: s.Luma[t], Stride: s.W, Rect: image.Rect(0, 0, s.W, s.H)}
}

// outlined reports whether the outlines of figures are known.
func (s *Stretch) outlined() bool { return len(s.Bodies) > 0 }

// standsOf are the runs in which a foot that is followed goes no faster than
// something on the ground.
func (w *walker) standsOf(t trail) []Contact {
	var list []Contact
	slow := func(k int) bool {
		across, down := w.limits(t.first + k)
		return math.Abs(t.by[k].dx) <= across && math.Abs(t.by[k].dy) <= down
	}
	for a := 0; a < len(t.by); a++ {
		b := a
		for b < len(t.by) && slow(b) {
			b++
		}
		if b > a {
			list = append(list, w.standOf(t, a, b))
			a = b
		}
	}
	return list
}

// standOf measures the stand of a trail over its steps from a up to b.
func (w *walker) standOf(t trail, a, b int) Contact {
	p := &spot{first: t.first + a, at: t.at[a : b+1], by: t.by[a:b]}
	vx, vy := w.usual(p)
	if w.rests(t.first+a, t.first+b) {
		vx, vy = 0, 0
	}
	st := w.settle(p, vx, vy)
	at := st.place(st.from)
	c := Contact{Start: w.draws[st.from].start, End: w.draws[st.to].end, X: at.x, Y: at.y}
	c.SlideStart, c.SlideEnd = c.Start, c.End
	c.Slip = w.slip(foot{&st}, st.from, st.to, vx, vy)
	c.Share = c.Slip / w.tall(st.from)
	last := st.place(st.to)
	c.LastX, c.LastY = last.x, last.y
	return c
}

// rests reports whether most of the time of the drawings from a to b is that of
// held ones: then what moves in the others is the foot coming or going.
func (w *walker) rests(a, b int) bool {
	held, all := 0.0, 0.0
	for _, d := range w.draws[a : b+1] {
		n := d.seconds(w.s.Rate)
		all += n
		if n > longestExposure {
			held += n
		}
	}
	return 2*held > all
}

// byHand tells where the marked feet of figure index, f, stand, and where they were
// followed to. found is all that seems to stand of it.
func (s *Stretch) byHand(index int, f *figure.Figure, found []Contact) ([]Contact, []Trail, error) {
	if !s.marked(index) {
		return nil, nil, nil
	}
	w := s.walker(f)
	w.sole = usualSole
	w.draws = s.drawings(f.Start, f.End())
	if s.outlined() {
		w.measureHeights()
	}
	list, err := w.trails(index)
	if err != nil {
		return nil, nil, err
	}
	var told []Contact
	var trails []Trail
	for _, t := range list {
		told = append(told, w.standsOf(t)...)
		trails = append(trails, Trail{Mark: t.mark, Figure: index,
			Start: w.draws[t.first].start, End: w.draws[t.first+len(t.at)-1].end})
	}
	told = w.sift(told)
	w.confirm(told, found)
	return told, trails, nil
}

// unmarked are the contacts that are not told of while marked feet were followed.
func unmarked(contacts []Contact, trails []Trail) []Contact {
	var list []Contact
	for _, c := range contacts {
		if !followed(c, trails) {
			list = append(list, c)
		}
	}
	return list
}

// followed reports whether most of a contact falls into trails.
func followed(c Contact, trails []Trail) bool {
	n := 0
	for t := c.Start; t <= c.End; t++ {
		if within(t, trails) > 0 {
			n++
		}
	}
	return 2*n > c.End-c.Start+1
}

// within is how many trails a frame falls into.
func within(t int, trails []Trail) int {
	n := 0
	for _, tr := range trails {
		if tr.Start <= t && t <= tr.End {
			n++
		}
	}
	return n
}

// bothFeet is how many feet must be followed for the figure to be off the ground
// where none of them is on it.
const bothFeet = 2

// flown keeps of a figure's flights those in which enough feet were followed, or
// none.
func flown(flights []Flight, trails []Trail) []Flight {
	return slices.DeleteFunc(flights, func(f Flight) bool {
		for t := f.Start; t <= f.End; t++ {
			if n := within(t, trails); n > 0 && n < bothFeet {
				return true
			}
		}
		return false
	})
}
