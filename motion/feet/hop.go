package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"
)

// A figure that hops on one spot is in the plate for half of its time, and what
// differs from the plate under it is now a foot and now bare ground. Its trunk tells
// of the hop all the same: nothing carries it from the frame on which its
// acceleration turns downward to that on which it turns upward again.

const (
	// hopLeast is how high, in figure heights, a trunk rises in a hop that is told by
	// the trunk alone.
	hopLeast = 0.05
	// hopPull is how fast it is pulled down, figure heights a second a second, in a hop
	// that may be told without its feet being seen to go up as well: three quarters of
	// what gravity pulls a person of 1.7 m with. What floats is pulled by less.
	hopPull = 1.5 * weakPull
	// hopPush is how many times as hard it is pushed up from the ground, as a mean,
	// than pulled down in the air: what bobs on its knees is pushed as hard as pulled.
	hopPush = 1.25
	// hopFull is the share of the usual pull that the first and the last frame of a
	// hop must have: what touches the ground is carried already. hopOver is the most:
	// a leg that is at its full stretch holds the trunk back by more.
	hopFull, hopOver = 0.5, 2
	// hopOff is how far the trunk may lie off its parabola, as a share of its rise.
	hopOff = 0.1
	// soleBand is how much of a figure's height above its lowest row is its feet.
	soleBand = 0.08
	// leftTimes is how many times as unlike as from frame to frame the picture of a
	// foot and that of the ground it left are: squares, so twice the difference.
	leftTimes = 4
)

// hops are the flights of a figure that never leaves its place, told by its trunk.
func (s *Stretch) hops(b *body, f *figure.Figure) []Flight {
	if !f.Rooted {
		return nil
	}
	var list []Flight
	for _, h := range b.freeFalls(s.trunk(f, f.Start, f.End()), s.Rate) {
		if s.soleLeaves(b, f, h.Flight) && (h.pull >= hopPull || f.Whole && s.soleRises(b, f, h.Flight)) {
			list = append(list, h.Flight)
		}
	}
	return list
}

// A fall is a flight that a trunk tells of.
type fall struct {
	Flight
	pull float64 // what pulls it down, figure heights a second a second
}

// freeFalls are the runs of frames in which nothing carries a trunk whose way, down,
// is y, pixels, one a frame.
func (b *body) freeFalls(y []float64, rate float64) []fall {
	pull := make([]float64, len(y)) // downward, pixels a frame a frame
	for i := 1; i+1 < len(y); i++ {
		pull[i] = y[i+1] - 2*y[i] + y[i-1]
	}
	var list []fall
	for i := 1; i+1 < len(y); i++ {
		if pull[i] <= 0 {
			continue
		}
		j := i
		for j+2 < len(y) && pull[j+1] > 0 {
			j++
		}
		if from, to := fullPull(pull, i, j); from > 1 && to+2 < len(y) {
			if hop, ok := b.hop(y, pull, from, to, rate); ok {
				list = append(list, hop)
			}
		}
		i = j
	}
	return list
}

// fullPull leaves out of the frames from i to j those at either end that are pulled
// but in part, or by more than the others.
func fullPull(pull []float64, i, j int) (from, to int) {
	usual := median(pull[i : j+1])
	free := func(pull float64) bool { return pull >= hopFull*usual && pull <= hopOver*usual }
	for i < j && !free(pull[i]) {
		i++
	}
	for j > i && !free(pull[j]) {
		j--
	}
	return i, j
}

// hop measures a flight from index i to j of a trunk's way y; ok is false where it may
// be none.
func (b *body) hop(y, pull []float64, i, j int, rate float64) (hop fall, ok bool) {
	seconds := float64(j-i+1) / rate
	if seconds < shortestFlight || seconds > longestFlight {
		return hop, false
	}
	ts := make([]float64, j-i+1)
	for k := range ts {
		ts[k] = float64(k)
	}
	air := y[i : j+1]
	p, falls := fitParabola(ts, air)
	if !falls || !p.tops(ts) {
		return hop, false
	}
	rise := p.at(-0.5) - p.at(p.vertex())
	hop.Flight = Flight{Start: b.first + i, End: b.first + j, Rise: rise, Share: rise / b.height, Travel: b.x[j+1] - b.x[i-1]}
	hop.pull = 2 * p.c * rate * rate / b.height
	return hop, hop.Share >= hopLeast && p.misfit(ts, air) <= hopOff*rise && pushed(pull, i, j) >= hopPush*2*p.c
}

// pushed is the softer of the mean pushes on the ground before frame i and after
// frame j, pixels a frame a frame.
func pushed(pull []float64, i, j int) float64 {
	mean := func(k, by int) float64 {
		sum, n := 0.0, 0
		for ; k > 0 && k < len(pull)-1 && pull[k] < 0; k += by {
			sum, n = sum-pull[k], n+1
		}
		return sum / math.Max(1, float64(n))
	}
	for i > 1 && pull[i-1] > 0 { // carried in part
		i--
	}
	for j+2 < len(pull) && pull[j+1] > 0 {
		j++
	}
	return min(mean(i-1, -1), mean(j+1, 1))
}

// soleLeaves reports whether some part of the lowest rows of a figure looks otherwise
// on the top of a hop than on the ground, by more than from frame to frame there: feet
// that stay while the knees bend do not.
func (s *Stretch) soleLeaves(b *body, f *figure.Figure, hop Flight) bool {
	top, ground := (hop.Start+hop.End)/2, hop.Start-2
	if ground <= f.Start {
		return false
	}
	return slices.ContainsFunc(s.soles(b, f, ground), func(v window) bool {
		least := max(alikeShare*s.contrast(ground, v), leftTimes*s.unlike(ground-1, ground, v))
		return s.unlike(ground, top, v) > least
	})
}

// soles are windows on the lowest rows of f, whose body is b, on frame t.
func (s *Stretch) soles(b *body, f *figure.Figure, t int) (list []window) {
	box, side := f.At(t), max(figure.Shrink, int(math.Round(soleBand*b.height)))
	low := min(box.Y1, s.H) - 1
	for x := max(0, box.X0); x+side <= min(box.X1, s.W); x += side {
		list = append(list, window{x, low - side + 1, x + side - 1, low})
	}
	return list
}

const (
	// soleUpLeast and soleUpMost are by how much of the trunk's rise a sole rises that
	// goes up with it: legs stretch at take-off, and are drawn up in the air.
	soleUpLeast, soleUpMost = 0.4, 1.6
	// soleFits is how many times as well a sole must fit where it has gone to as where
	// it was: squares, of a window that shows as much of the ground.
	soleFits = 2
)

// soleRises reports whether some part of the lowest rows of a figure is found higher
// up on the top of a hop, by about as much as its trunk.
func (s *Stretch) soleRises(b *body, f *figure.Figure, hop Flight) bool {
	top, ground := (hop.Start+hop.End)/2, hop.Start-1
	reach := int(math.Ceil(soleUpMost*hop.Rise)) + beyond
	side := int(math.Ceil(soleBand * b.height))
	return slices.ContainsFunc(s.soles(b, f, ground), func(v window) bool {
		at := search(side, reach, 1, func(dx, dy int, _ float64) float64 {
			return s.unlikeAt(ground, top, v, dx, dy)
		})
		up := -at.dy / hop.Rise
		return at.ok && up >= soleUpLeast && up <= soleUpMost && soleFits*at.cost <= s.unlike(ground, top, v) && at.cost <= alikeShare*s.contrast(ground, v)
	})
}

// unlike is the mean squared difference of a window of frame a and the same of frame
// b, the camera taken out, levels squared.
func (s *Stretch) unlike(a, b int, v window) float64 { return s.unlikeAt(a, b, v, 0, 0) }

// unlikeAt is that of the window and one moved by (dx, dy).
func (s *Stretch) unlikeAt(a, b int, v window, dx, dy int) float64 {
	cx, cy := s.drift(a, b, float64(v.x0+v.x1)/2, float64(v.y0+v.y1)/2)
	dx, dy = dx+int(math.Round(cx)), dy+int(math.Round(cy))
	sum, n := 0, 0
	for y := max(v.y0, 0, -dy); y <= min(v.y1, s.H-1, s.H-1-dy); y++ {
		for x := max(v.x0, 0, -dx); x <= min(v.x1, s.W-1, s.W-1-dx); x++ {
			d := int(s.Luma[a][y*s.W+x]) - int(s.Luma[b][(y+dy)*s.W+x+dx])
			sum, n = sum+d*d, n+1
		}
	}
	return float64(sum) / math.Max(1, float64(n))
}

// landed are contacts without the frames of hops, which are in order: what seems to
// stand through one is two stands, and what falls into one for the better part is none.
func (s *Stretch) landed(contacts []Contact, hops []Flight) (list []Contact) {
	least := int(math.Ceil(shortestContact * s.Rate))
	for _, c := range contacts {
		stands, from := []Contact{}, c.Start
		n := 0
		keep := func(to int) {
			if to-from+1 >= least {
				stands = append(stands, c.part(from, to))
			}
		}
		for _, h := range hops {
			if h.End < c.Start || h.Start > c.End {
				continue
			}
			n += min(c.End, h.End) - max(c.Start, h.Start) + 1
			keep(h.Start - 1)
			from = h.End + 1
		}
		if keep(c.End); 2*n <= c.End-c.Start+1 {
			list = append(list, stands...)
		}
	}
	return list
}

// part is what c does between two of its frames, if it goes evenly.
func (c Contact) part(from, to int) Contact {
	whole := c
	at := func(t int) float64 { return float64(t-whole.Start) / float64(max(1, whole.End-whole.Start)) }
	x, y := whole.LastX-whole.X, whole.LastY-whole.Y
	c.Start, c.X, c.Y = from, whole.X+at(from)*x, whole.Y+at(from)*y
	c.End, c.LastX, c.LastY = to, whole.X+at(to)*x, whole.Y+at(to)*y
	share := at(to) - at(from)
	c.Slip, c.Share = share*whole.Slip, share*whole.Share
	c.SlideStart, c.SlideEnd = min(max(c.SlideStart, from), to), min(max(c.SlideEnd, from), to)
	return c
}

// withHops puts hops in the place of the flights that they overlap: under a figure
// that stays on its spot feet are the less sure.
func withHops(flights, hops []Flight) []Flight {
	flights = slices.DeleteFunc(flights, func(f Flight) bool {
		return slices.ContainsFunc(hops, func(h Flight) bool { return f.Start <= h.End && f.End >= h.Start })
	})
	return append(flights, hops...)
}
