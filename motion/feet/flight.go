package feet

import "slices"

// A Flight is a run of frames in which a figure touches no ground. Frames count
// from the first of the stretch, both ends included.
type Flight struct {
	Figure     int // index into Stretch.Figures
	Start, End int
	Rise       float64 // of the figure's middle from take-off to the top, working pixels
	Share      float64 // the same in figure heights
	Travel     float64 // across, working pixels, positive to the right
}

const (
	// shortestFlight is the least time in the air, seconds: a running step's is
	// 0.05 to 0.15 (common practice, no source), a frame at 24 a second 0.04.
	shortestFlight = 0.06
	// longestFlight is the longest: a leap of a man's height and a half takes a
	// second and a half (from free fall), a cartoon hangs on a little.
	longestFlight = 2.5
	// lowestFlight is how high, in figure heights, the lowest point of a figure is
	// off the line from take-off to landing at least.
	lowestFlight = 0.012
)

// flights finds the runs of frames between contacts in which b is off the ground.
// contacts are the figure's own, in any order.
func (b *body) flights(contacts []Contact, rate float64) []Flight {
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
		if j+1 < len(stands) && b.flies(i, j, rate) {
			list = append(list, b.flight(i, j))
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
		if !b.seen[k] || b.cut[k] {
			return false
		}
		u := float64(k-i+1) / float64(j-i+2)
		off = max(off, b.bottom[i-1]*(1-u)+b.bottom[j+1]*u-b.bottom[k])
	}
	return off >= lowestFlight*b.height
}

// flight measures the flight from index i to j. Take-off lies somewhere between
// the last frame on the ground and the first off it: half-way, for want of better.
func (b *body) flight(i, j int) Flight {
	ts, ys := make([]float64, 0, j-i+1), make([]float64, 0, j-i+1)
	for k := i; k <= j; k++ {
		ts, ys = append(ts, float64(k)), append(ys, b.y[k])
	}
	takeoff := (b.y[i-1] + b.y[i]) / 2
	top := slices.Min(ys)
	if p, ok := fitParabola(ts, ys); ok && p.c > 0 {
		takeoff = p.at(float64(i) - 0.5)
		top = p.at(min(max(p.vertex(), float64(i)-0.5), float64(j)+0.5))
	}
	rise := max(0, takeoff-top)
	return Flight{
		Start: b.first + i, End: b.first + j,
		Rise: rise, Share: rise / b.height, Travel: b.x[j+1] - b.x[i-1],
	}
}
