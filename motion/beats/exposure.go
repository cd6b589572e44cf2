package beats

// Patterns of exposure: how long each drawing stays up.
const (
	Ones    = "ones"
	Twos    = "twos"
	Threes  = "threes"
	Stepped = "stepped" // poses that replace each other with nothing in between
)

const (
	// newShare is the part of the largest step nearby from which a step shows
	// a new drawing and not the same one again.
	newShare = 0.2
	// newReach is how many frames either side are nearby: one drawing on
	// threes and its neighbour.
	newReach = 4
	// evenDrawings is how many drawings in a row must stay up equally long to
	// make a pattern; two alike are chance.
	evenDrawings = 3
	// steppedLongest is the longest that a drawing stays up on a pattern; what
	// stays longer is a pose.
	steppedLongest = 3
)

// Exposures returns the stretches of a shot that move, each with the number of
// frames that its drawings stay up. floor is the travel, in figure heights,
// that a repeated drawing can show.
func Exposures(s Series, floor float64) []Exposure {
	fresh := newDrawings(s.Mean, floor)
	var out []Exposure
	for i := 0; i < len(fresh); {
		n := even(fresh, i)
		if n < 2 {
			i++
			continue
		}
		up := fresh[i+1] - fresh[i]
		last := fresh[i+n-1] + up - 1
		if i+n < len(fresh) { // the next drawing may come sooner
			last = min(last, fresh[i+n]-1)
		}
		out = append(out, Exposure{Start: fresh[i], End: min(last, len(s.Max)-1), Pattern: pattern(up), FramesPerDrawing: float64(up)})
		i += n
	}
	return mergeExposures(out)
}

// mergeExposures joins stretches of one pattern that a stray frame divides: a
// part that nearly stops for less than a hold does not change the pattern.
func mergeExposures(in []Exposure) []Exposure {
	var out []Exposure
	for _, e := range in {
		if n := len(out); n > 0 && out[n-1].Pattern == e.Pattern && e.Start-out[n-1].End <= newReach {
			out[n-1].End = e.End
			continue
		}
		out = append(out, e)
	}
	return out
}

// newDrawings returns the frames that show something new.
func newDrawings(v []float64, floor float64) []int {
	var fresh []int
	for i := 1; i < len(v); i++ {
		most := 0.0
		for j := max(1, i-newReach); j <= min(len(v)-1, i+newReach); j++ {
			most = max(most, v[j])
		}
		if v[i] > floor && v[i] >= newShare*most {
			fresh = append(fresh, i)
		}
	}
	return fresh
}

// even returns how many drawings from the i-th on stay up equally long, 0
// where they are too few to be a pattern or stay up too long for one.
func even(fresh []int, i int) int {
	if i+1 >= len(fresh) {
		return 0
	}
	up := fresh[i+1] - fresh[i]
	n := 1
	for i+n < len(fresh) && fresh[i+n]-fresh[i+n-1] == up {
		n++
	}
	if n < evenDrawings || up > steppedLongest {
		return 0
	}
	return n
}

func pattern(up int) string {
	switch up {
	case 1:
		return Ones
	case 2:
		return Twos
	case 3:
		return Threes
	}
	return Stepped
}
