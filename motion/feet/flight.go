package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"
)

// A Flight is a run of frames in which a figure touches no ground. Frames count
// from the first of the stretch, both ends included.
type Flight struct {
	Figure     int // index into Stretch.Figures
	Start, End int
	Rise       float64 // of the figure's trunk from take-off to the top, working pixels
	Share      float64 // the same in figure heights
	Travel     float64 // across, working pixels, positive to the right
	// OffParabola: the trunk does not rise and fall as what nothing carries does, so
	// that gravity has no say in it.
	OffParabola bool
}

const (
	// shortestFlight is the least time in the air, seconds: a running step's is
	// 0.05 to 0.15 (common practice, no source), a frame at 24 a second 0.04.
	shortestFlight = 0.06
	// longestFlight is the longest: a leap of a man's height and a half takes a
	// second and a half (from free fall), a cartoon hangs on a little.
	longestFlight = 2.5
	// lowestFlight is how high, in figure heights, the lowest point of a figure is
	// off the line from take-off to landing at least, and how far its trunk rises:
	// a trunk that does not is carried by a foot that was not seen.
	lowestFlight = 0.012
	// weakPull is half of what gravity pulls a person of 1.7 m with, figure heights
	// a second a second (9.80665 m/s²): in a flight too short for lowestFlight the
	// trunk rises by as much as that gives.
	weakPull = 9.80665 / 1.7 / 2
)

// flights finds the runs of frames between contacts in which f, whose body is b,
// is off the ground. contacts are its own, in any order.
func (s *Stretch) flights(b *body, f *figure.Figure, contacts []Contact) []Flight {
	stands := make([]bool, len(b.seen))
	for _, c := range contacts {
		for t := max(c.Start, b.first); t <= min(c.End, b.last()); t++ {
			stands[t-b.first] = true
		}
	}
	var list []Flight
	for i := slices.Index(stands, true); i >= 0 && i < len(stands); i++ {
		if stands[i] {
			continue
		}
		j := i
		for j+1 < len(stands) && !stands[j+1] {
			j++
		}
		if j+1 < len(stands) && b.flies(i, j, s.Rate) {
			if flight := s.flight(b, f, i, j, contacts); flight.lifts(s.Rate) {
				list = append(list, flight)
			}
		}
		i = j
	}
	return list
}

// flies reports whether the frames from index i to j are spent in the air.
func (b *body) flies(i, j int, rate float64) bool {
	seconds := float64(j-i+1) / rate
	if seconds < shortestFlight || seconds > longestFlight {
		return false
	}
	off := 0.0
	for k := i - 1; k <= j+1; k++ {
		if !b.seen[k] {
			return false
		}
		u := float64(k-i+1) / float64(j-i+2)
		off = max(off, b.bottom[i-1]*(1-u)+b.bottom[j+1]*u-b.bottom[k])
	}
	return off >= lowestFlight*b.height
}

// lifts reports whether the trunk rises as that of something in the air must.
func (f Flight) lifts(rate float64) bool {
	seconds := float64(f.End-f.Start+1) / rate
	return f.Share >= min(lowestFlight, weakPull*seconds*seconds/8)
}

const (
	// arcOff is how far, as a share of its rise, the trunk may lie off a parabola on
	// its way through the air: as a root mean square; a body that lingers on its top as
	// 1-t⁴ does is off by 0.08 of its rise, one that stays up there for half of the
	// time by more than 0.15.
	arcOff = 0.15
	// arcOffLeast is the least of that, pixels: what a match is off by.
	arcOffLeast = 0.5
)

// flight measures the flight from index i to j. Where the trunk was at take-off
// is where it is on the first frame off the ground, less what the sole has risen
// by then: the leg is still stretched.
func (s *Stretch) flight(b *body, f *figure.Figure, i, j int, contacts []Contact) Flight {
	y := s.trunk(f, b.first+i-1, b.first+j+1)
	ts := make([]float64, j-i+1)
	for k := range ts {
		ts[k] = float64(k)
	}
	air := y[1 : len(y)-1]
	takeoff, top := (y[0]+y[1])/2, slices.Min(air)
	p, falls := fitParabola(ts, air)
	if falls = falls && p.c > 0; falls {
		takeoff = p.at(-0.5)
		top = p.at(min(max(p.vertex(), -0.5), float64(j-i)+0.5))
	}
	if lift, ok := s.lift(f, contacts, b.first+i, y[0]-y[1]); ok {
		takeoff = y[1] + lift
	}
	rise := max(0, takeoff-top)
	return Flight{
		Start: b.first + i, End: b.first + j,
		Rise: rise, Share: rise / b.height, Travel: b.x[j+1] - b.x[i-1],
		OffParabola: !falls || !p.tops(ts) || p.misfit(ts, air) > max(arcOffLeast, arcOff*rise),
	}
}

// tops reports whether the extreme value of p lies between the first and the last
// of some instants.
func (p parabola) tops(ts []float64) bool {
	at := p.vertex()
	return at >= ts[0] && at <= ts[len(ts)-1]
}

// soleUp and soleSide are how far up and to either side of the middle of a sole,
// in figure heights, its picture is followed.
const soleUp, soleSide = 0.05, 0.1

// lift is how far the sole that left the ground last has risen on frame t, the
// first off it, pixels, when the trunk has risen by so much: no less, as the leg is
// stretched when it lifts.
func (s *Stretch) lift(f *figure.Figure, contacts []Contact, t int, trunk float64) (up float64, ok bool) {
	w := s.walker(f)
	reach := int(math.Ceil(max(0, trunk))) + beyond
	for _, c := range contacts {
		if c.End != t-1 {
			continue
		}
		n := func(share float64) int { return int(math.Round(share * f.HeightPx)) }
		x, y := int(c.LastX), int(c.LastY)
		m := w.match(t-1, t, window{x - n(soleSide), y - n(soleUp), x + n(soleSide), y + n(windowDown)}, reach, reach)
		if m.ok && m.misfit <= alikeShare*m.contrast && (!ok || -m.dy < up) {
			up, ok = min(max(0, -m.dy), max(0, trunk)), true
		}
	}
	return up, ok
}

const (
	// trunkTop and trunkBottom are where the trunk begins and ends below the top of
	// a figure, and trunkSide how wide it is to either side of the figure's
	// middle, in figure heights: chest and head, which limbs move least.
	trunkTop, trunkBottom, trunkSide = 0.03, 0.42, 0.12
	// trunkSpeed is how fast it goes at most, figure heights a second: free fall
	// from twice the height.
	trunkSpeed = 3.5
	// flatTimes is how many times as badly, squared, a trunk may fit where the whole
	// outline has gone as where it fits best, for it to have gone there: what is of one
	// colour fits anywhere inside itself.
	flatTimes = 1.5
)

// trunk is how low, in working pixels, a figure's trunk is on each frame from one
// to another, against the first of them: the picture of the trunk is followed, as
// arms that swing and legs that fold move the middle of a silhouette. Where the trunk
// has no picture, as it is of one colour, it goes with the outline if all of that goes.
func (s *Stretch) trunk(f *figure.Figure, from, to int) []float64 {
	w := s.walker(f)
	reach := int(math.Ceil(trunkSpeed*f.HeightPx/s.Rate)) + 1
	y := []float64{0}
	for t := from; t < to; t++ {
		v := trunkWindow(f.At(t), f.HeightPx)
		m := w.match(t, t+1, v, reach, reach)
		dy := m.dy
		if down, ok := rides(f.At(t), f.At(t+1)); ok && math.Abs(down-dy) > outlineOff && w.misfitAt(t, t+1, v, int(down)) <= flatTimes*m.misfit {
			dy = down
		}
		y = append(y, y[len(y)-1]+dy)
	}
	return y
}

// outlineOff is how far off an outline may be, pixels: that of a silhouette's pixel.
const outlineOff = figure.Shrink

// rides is how far down a box goes as a whole; ok is false where its top and its bottom
// go otherwise.
func rides(from, to figure.Box) (down float64, ok bool) {
	top, bottom := to.Y0-from.Y0, to.Y1-from.Y1
	return float64(top+bottom) / 2, !from.Empty() && !to.Empty() && max(top-bottom, bottom-top) <= outlineOff
}

func trunkWindow(b figure.Box, height float64) window {
	n := func(share float64) int { return int(math.Round(share * height)) }
	x := (b.X0 + b.X1) / 2
	return window{x - n(trunkSide), b.Y0 + n(trunkTop), x + n(trunkSide), b.Y0 + n(trunkBottom)}
}
