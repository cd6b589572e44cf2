package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"
)

// A spot is the left or right end of a sole, followed for as long as it stays
// put or slides: the heel of one foot, the toe of another.
type spot struct {
	left  bool
	first int     // index of the drawing of at[0]
	at    []place // one a drawing, in the first frame of that drawing
	by    []step  // what led from each to the next
}

// A place is in working pixels of one frame.
type place struct{ x, y float64 }

// A step is the way of a spot from one drawing to the next over the ground, in
// working pixels.
type step struct {
	dx, dy float64
	seen   bool // measured; what was hidden is filled in
}

func (p *spot) last() int { return p.first + len(p.at) - 1 }

const (
	// slowAcross and slowDown are the most that something on the ground goes, in
	// figure heights a second. A swinging foot goes at two and more.
	slowAcross, slowDown = 0.72, 0.48
	// hiddenSeconds is for how long a spot may be hidden by what passes before it.
	hiddenSeconds = 0.25
	// alikeShare is how much of a window's variance may be left when it is found
	// again.
	alikeShare = 0.5
	// beyond is how many pixels farther than that something is looked for: a least
	// misfit on the rim of what was looked at is none.
	beyond = 2
	// The window around an end reaches so far, in figure heights, into the sole,
	// out of it, up and down.
	windowIn, windowOut, windowUp, windowDown = 0.05, 0.03, 0.06, 0.02
	// windowLeast is the least of these reaches, pixels.
	windowLeast = 2.0
)

// window is what is looked at around an end in frame t.
func (w *walker) window(t int, p place, left bool) window {
	n := func(share float64) int { return int(math.Round(max(windowLeast, share*w.tallIn(t)))) }
	x, y := int(math.Round(p.x)), int(math.Round(p.y))
	v := window{x0: x - n(windowOut), x1: x + n(windowIn), y0: y - n(windowUp), y1: y + n(windowDown)}
	if !left {
		v.x0, v.x1 = x-n(windowIn), x+n(windowOut)
	}
	return v
}

// limits are the most a spot may go from drawing i to the next, pixels.
func (w *walker) limits(i int) (across, down float64) {
	dt := w.span(i)
	return slowAcross * dt * w.tall(i), slowDown * dt * w.tall(i)
}

// move follows spot p from its place in drawing i to drawing k, later or earlier.
func (w *walker) move(p *spot, i, k int) (place, step, bool) {
	a, b := w.frames(i, k)
	from := w.carry(p.at[i-p.first], w.draws[i].start, a)
	across, down := w.limits(min(i, k))
	m := w.match(a, b, w.window(a, from, p.left), int(math.Ceil(across))+beyond, int(math.Ceil(down))+beyond)
	if !m.ok || m.misfit > alikeShare*m.contrast || math.Abs(m.dx) > across || math.Abs(m.dy) > down {
		return from, step{}, false
	}
	cx, cy := w.still(a, b, from.x, from.y)
	to := place{from.x + cx + m.dx, from.y + cy + m.dy}
	if w.bare(a, w.window(a, from, p.left)) && w.bare(b, w.window(b, to, p.left)) {
		return from, step{}, false
	}
	return w.carry(to, b, w.draws[k].start), step{m.dx, m.dy, true}, true
}

// bareShare is the least share of a window around the end of a sole that is figure:
// a shoe's tip fills about a third. Under it the figure has left, and what is
// found again is the ground beneath; but where a shoe is found again in a frame whose
// silhouette lost it, that is still the shoe.
const bareShare = 0.1

// bare reports whether next to nothing in a window of frame t is figure although
// the figure is seen down to there: legs that stand still at first may be in the
// plate.
func (w *walker) bare(t int, v window) bool {
	if w.f.At(t).Y1 < v.y0 {
		return false
	}
	n := 0
	for y := v.y0; y <= v.y1; y++ {
		for x := v.x0; x <= v.x1; x++ {
			if w.s.figureAt(t, x, y) && w.s.boxed(t, x, y) {
				n++
			}
		}
	}
	return float64(n) < bareShare*float64(v.area())
}

// boxed reports whether a pixel of frame t lies in the box of some figure: others
// are remains of a set that moves.
func (s *Stretch) boxed(t, x, y int) bool {
	return slices.ContainsFunc(s.Figures, func(f figure.Figure) bool {
		b := f.At(t)
		return x >= b.X0 && x < b.X1 && y >= b.Y0 && y < b.Y1
	})
}

// steadyWay is how far, in figure heights a second, the way of something that
// stands or slides may differ from its usual one: more is a foot that comes or
// goes.
const steadyWay = 0.2

// recentSteps is how many steps the usual way of a spot is taken from.
const recentSteps = 5

// keeps reports whether a step from drawing i to k, or back, fits what spot p did
// next to it.
func (w *walker) keeps(p *spot, by step, i, k int) bool {
	recent := p.by[max(0, len(p.by)-recentSteps):]
	first := p.first + len(p.by) - len(recent)
	if k < i {
		recent, first = p.by[:min(len(p.by), recentSteps)], p.first
		by.dx, by.dy = -by.dx, -by.dy
	}
	if len(recent) == 0 {
		return true
	}
	var vx, vy []float64
	for j, b := range recent {
		x, y := w.speed(b, first+j)
		vx, vy = append(vx, x), append(vy, y)
	}
	n := math.Abs(float64(k - i))
	x, y := w.speed(step{dx: by.dx / n, dy: by.dy / n}, min(i, k))
	return math.Hypot(x-median(vx), y-median(vy)) <= steadyWay
}

// speed is a step out of drawing i in figure heights a second.
func (w *walker) speed(b step, i int) (x, y float64) {
	dt := w.span(i) * w.tall(i)
	return b.dx / dt, b.dy / dt
}

// frames are the frames that are compared between two drawings: those closest
// in time.
func (w *walker) frames(i, k int) (a, b int) {
	if i < k {
		return w.draws[i].end, w.draws[k].start
	}
	return w.draws[i].start, w.draws[k].end
}

// follow adds the spots that given ends, by drawing, belong to.
func (w *walker) follow(ends [][]end) {
	longest := w.longestPose()
	for i := range w.draws {
		for _, e := range ends[i] {
			if w.known(e, i) {
				continue
			}
			p := &spot{left: e.left, first: i, at: []place{e.place}}
			w.forward(p)
			w.backward(p)
			if len(p.at) > 1 || w.draws[i].seconds(w.s.Rate) > longest {
				w.spots = append(w.spots, p)
			}
		}
	}
}

// sameShare is how close, in figure heights, two ends of one kind are one.
const sameShare = 0.04

// known reports whether a spot already follows an end.
func (w *walker) known(e end, i int) bool { return w.at(e, i) != nil }

// at is the spot that follows an end of drawing i, nil for none.
func (w *walker) at(e end, i int) *spot {
	for _, p := range w.spots {
		if p.left == e.left && i >= p.first && i <= p.last() {
			q := p.at[i-p.first]
			if math.Hypot(q.x-e.x, q.y-e.y) <= max(windowLeast, sameShare*w.tall(i)) {
				return p
			}
		}
	}
	return nil
}

func (w *walker) patience() int { return int(math.Round(hiddenSeconds * w.s.Rate)) }

func (w *walker) forward(p *spot) {
	for i := p.last(); i+1 < len(w.draws); {
		found := false
		for k := i + 1; k < len(w.draws) && w.draws[k].start-w.draws[i].end <= 1+w.patience(); k++ {
			if to, by, ok := w.move(p, i, k); ok && w.keeps(p, by, i, k) {
				w.fill(p, i, k, to, by)
				i, found = k, true
				break
			}
			if !w.hidden(p, i, k) {
				break
			}
		}
		if !found {
			return
		}
	}
}

// hiddenShare is how much of what was figure around a spot must be figure while
// it is hidden: what lies bare has gone.
const hiddenShare = 0.7

// hidden reports whether something of a figure covers, in drawing k, where spot p
// was in drawing i.
func (w *walker) hidden(p *spot, i, k int) bool {
	a, b := w.frames(i, k)
	at := w.carry(p.at[i-p.first], w.draws[i].start, a)
	cx, cy := w.still(a, b, at.x, at.y)
	v := w.window(a, at, p.left)
	dx, dy := int(math.Round(cx)), int(math.Round(cy))
	was, is := 0, 0
	for y := v.y0; y <= v.y1; y++ {
		for x := v.x0; x <= v.x1; x++ {
			if w.s.figureAt(a, x, y) {
				was++
				if w.s.figureAt(b, x+dx, y+dy) {
					is++
				}
			}
		}
	}
	return float64(is) >= hiddenShare*float64(was)
}

// fill adds drawings i+1 to k, the last at a place that by led to.
func (w *walker) fill(p *spot, i, k int, to place, by step) {
	n := float64(k - i)
	from := w.carry(p.at[len(p.at)-1], w.draws[i].start, w.draws[i].end)
	for j := i + 1; j <= k; j++ {
		q := to
		if j < k {
			cx, cy := w.still(w.draws[i].end, w.draws[j].start, from.x, from.y)
			u := float64(j-i) / n
			q = place{from.x + cx + by.dx*u, from.y + cy + by.dy*u}
		}
		p.at = append(p.at, q)
		p.by = append(p.by, step{by.dx / n, by.dy / n, k == i+1})
	}
}

func (w *walker) backward(p *spot) {
	for p.first > 0 {
		to, by, ok := w.move(p, p.first, p.first-1)
		if !ok || !w.keeps(p, by, p.first, p.first-1) {
			return
		}
		p.first--
		p.at = append([]place{to}, p.at...)
		p.by = append([]step{{-by.dx, -by.dy, true}}, p.by...)
	}
}
