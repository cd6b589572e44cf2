package feet

import (
	"math"
	"slices"
)

// An Impact is the instant at which a free object, a ball, meets the ground.
type Impact struct {
	Figure int     // index into Stretch.Figures
	Frame  float64 // from the first of the stretch, to a fraction
	// Restitution is the speed after the impact over that before it, which is the
	// ratio of the flights' times; 0 where one of them is not known.
	Restitution float64
}

const (
	// roundest and flattest bound the width of a free object against its height,
	// and fullest is the least share of its box that it fills: a ball's is 0.79.
	roundest, flattest, fullest = 1.9, 0.55, 0.6
	// freeShare is in what share of its frames it must look like that.
	freeShare = 0.8
	// fallLeast is the least height, in sizes of the object, that it falls or
	// rises by for an arc to count.
	fallLeast = 0.1
	// arcLeast is the least frames of an arc that its parabola is fitted to.
	arcLeast = 3
	// arcMisfit is how far, in sizes of the object, a free arc may lie off its
	// parabola, and arcNoise how far, in pixels, the middle of a silhouette errs.
	arcMisfit, arcNoise = 0.006, 0.2
	// onePull is how far apart, as a share, the pulls of two arcs of one object
	// may be.
	onePull = 0.5
	// restLeast is for how many frames, and restTravel within how much of its
	// size, an object lies still after its last impact.
	restLeast, restTravel = 3, 0.03
)

// bounces finds the impacts of b; ok is false where it is no free object that
// bounces.
func (b *body) bounces() (list []Impact, ok bool) {
	if !b.compact() {
		return nil, false
	}
	arcs := b.arcs()
	for i := range arcs {
		p := &arcs[i]
		im := Impact{}
		if i+1 < len(arcs) && arcs[i+1].from-p.to <= 2 {
			at, met := p.meets(&arcs[i+1])
			if !met {
				continue
			}
			im.Frame, im.Restitution = at, p.restitution(&arcs[i+1], at)
		} else if at, lies := b.settles(p); lies {
			im.Frame = at
		} else {
			continue
		}
		im.Frame += float64(b.first)
		list = append(list, im)
	}
	for i := 1; i+1 < len(list); i++ {
		// Times of flights say it better than speeds.
		before, after := list[i].Frame-list[i-1].Frame, list[i+1].Frame-list[i].Frame
		if list[i-1].Restitution > 0 && list[i].Restitution > 0 {
			list[i].Restitution = min(1, after/before)
		}
	}
	return list, len(list) > 0
}

// restitution is the speed of arc q after instant at over that of p before it.
func (p *arc) restitution(q *arc, at float64) float64 {
	down, up := p.slope(at), -q.slope(at)
	if down <= 0 || up <= 0 {
		return 0
	}
	return min(1, up/down)
}

// settles is the instant at which b comes to rest at the end of an arc; ok is
// false where it does not.
func (b *body) settles(p *arc) (at float64, ok bool) {
	size := b.size()
	lo, hi, sum := math.Inf(1), math.Inf(-1), 0.0
	first := p.to + 2
	if first+restLeast > len(b.seen) {
		return 0, false
	}
	for k := first; k < first+restLeast; k++ {
		lo, hi, sum = min(lo, b.y[k]), max(hi, b.y[k]), sum+b.y[k]
	}
	if hi-lo > restTravel*size {
		return 0, false
	}
	for _, u := range roots(p.a-sum/restLeast, p.b, p.c) {
		if t := p.t0 + u; p.slope(t) > 0 && math.Abs(t-float64(p.to)) < 2 {
			return t, true
		}
	}
	return 0, false
}

// compact reports whether b keeps the shape of a ball.
func (b *body) compact() bool {
	n, like := 0, 0
	for i := range b.seen {
		if !b.seen[i] || b.cut[i] {
			continue
		}
		n++
		if r := b.w[i] / b.h[i]; r > flattest && r < roundest && b.fill[i] > fullest {
			like++
		}
	}
	return n >= 2*arcLeast && float64(like) >= freeShare*float64(n)
}

// An arc is a free flight: frames from index from to to, both included, with the
// parabola through them.
type arc struct {
	parabola
	from, to int
}

// arcs cuts b's way into free flights: runs of frames with one downward pull.
func (b *body) arcs() []arc {
	size := b.size()
	var list []arc
	for i := 0; i < len(b.seen); {
		a, ok := b.arcFrom(i, size)
		if !ok {
			i++
			continue
		}
		if b.travel(a) >= fallLeast*size {
			list = append(list, a)
		}
		i = a.to + 1
	}
	return onePulled(list)
}

// onePulled keeps the arcs that are pulled as the longest is.
func onePulled(list []arc) []arc {
	longest := arc{from: 0, to: -1}
	for _, a := range list {
		if a.to-a.from > longest.to-longest.from {
			longest = a
		}
	}
	return slices.DeleteFunc(list, func(a arc) bool { return math.Abs(a.c-longest.c) > onePull*longest.c })
}

// arcFrom is the longest arc that starts at index i.
func (b *body) arcFrom(i int, size float64) (best arc, ok bool) {
	var ts, ys []float64
	for k := i; k < len(b.seen) && b.seen[k] && !b.cut[k]; k++ {
		ts, ys = append(ts, float64(k)), append(ys, b.y[k])
		if len(ts) < arcLeast {
			continue
		}
		p, fits := fitParabola(ts, ys)
		if !fits || p.misfit(ts, ys) > arcMisfit*size+arcNoise || p.c <= 0 && len(ts) > arcLeast {
			break
		}
		if p.c > 0 {
			best, ok = arc{p, i, k}, true
		}
	}
	return best, ok
}

// size is the median height of b.
func (b *body) size() float64 {
	var h []float64
	for i, v := range b.h {
		if b.seen[i] {
			h = append(h, v)
		}
	}
	return max(1, median(h))
}

// travel is how far an arc goes up and down.
func (b *body) travel(a arc) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for k := a.from; k <= a.to; k++ {
		lo, hi = min(lo, b.y[k]), max(hi, b.y[k])
	}
	return hi - lo
}

// meets is the instant, near where one arc ends and the next begins, at which both
// are at one place.
func (a *arc) meets(q *arc) (at float64, ok bool) {
	// The difference of two parabolas, about the middle of the gap.
	mid := float64(a.to+q.from) / 2
	d0 := a.at(mid) - q.at(mid)
	d1 := a.slope(mid) - q.slope(mid)
	d2 := a.c - q.c
	best := math.Inf(1)
	for _, u := range roots(d0, d1, d2) {
		if math.Abs(u) < math.Abs(best) {
			best = u
		}
	}
	if math.Abs(best) > 1+float64(q.from-a.to)/2 {
		return 0, false
	}
	return mid + best, true
}

// roots are the real zeros of a + b u + c u^2.
func roots(a, b, c float64) []float64 {
	if math.Abs(c) < 1e-9*math.Abs(b) || c == 0 {
		if b == 0 {
			return nil
		}
		return []float64{-a / b}
	}
	d := b*b - 4*a*c
	if d < 0 {
		return nil
	}
	r := math.Sqrt(d)
	return []float64{(-b + r) / (2 * c), (-b - r) / (2 * c)}
}
