package feet

// A drawing is a run of frames in which no part of a figure moves. Both ends
// included.
type drawing struct{ start, end int }

// longestExposure is the most frames, at 24 a second, that a drawing stays up
// while the figure moves on: threes. What stays up longer is a hold or a pose,
// and what follows it is no faster for that.
const longestExposure = 3.0 / 24 // seconds

// span is how much time the step out of drawing i stands for, seconds: what sets off
// from a hold goes no farther on its first frame than on the next.
func (w *walker) span(i int) float64 {
	n := w.draws[i].seconds(w.s.Rate)
	if i+1 < len(w.draws) {
		n = min(n, w.draws[i+1].seconds(w.s.Rate))
	}
	return min(n, max(1/w.s.Rate, longestExposure))
}

// seconds is how long d stays up.
func (d drawing) seconds(rate float64) float64 { return float64(d.end-d.start+1) / rate }

const (
	// holdTimes is how many times as long as a figure's drawings do mostly one of
	// them stays up for that to be a hold: in what is animated on eights every foot
	// that swings hangs in the air for eight frames.
	holdTimes = 2
	// mostlyLeast is of how many drawings the median says how long they stay up.
	mostlyLeast = 5
)

// longestPose is the longest, in seconds, that a drawing stays up that is no hold.
func (w *walker) longestPose() float64 {
	if len(w.draws) < mostlyLeast {
		return longestExposure
	}
	var list []float64
	for _, d := range w.draws {
		list = append(list, d.seconds(w.s.Rate))
	}
	return max(longestExposure, holdTimes*median(list))
}

// drawings are the runs of frames of the stretch between from and to that show
// one drawing each.
func (s *Stretch) drawings(from, to int) []drawing {
	var list []drawing
	for t := from; t <= to; t++ {
		if n := len(list); n > 0 && s.Still[t] {
			list[n-1].end = t
			continue
		}
		list = append(list, drawing{t, t})
	}
	return list
}
