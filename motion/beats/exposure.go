package beats

// Patterns of exposure: how long each drawing stays up.
const (
	Ones    = "ones"
	Twos    = "twos"
	Threes  = "threes"
	Fours   = "fours"
	Stepped = "stepped" // poses that replace each other with nothing in between
)

// patterns are those of even drawings, by the frames that each stays up less
// one; what stays up longer than the last is a pose kept.
var patterns = [...]string{Ones, Twos, Threes, Fours}

const longestUp = len(patterns)

// evenDrawings is how many drawings in a row must stay up equally long to make
// a pattern, and how many poses in a row must pop; two alike are chance.
const evenDrawings = 3

// Exposures returns the stretches of a shot by the number of frames that their
// drawings stay up. Nothing tells the pattern of a pose that is kept: a stretch
// begins and ends with what moves, and runs through the holds in between.
// Pictures that repeat as a whole do not count.
func Exposures(s Series, o Options) []Exposure {
	shown, frames := s.withoutRepeats(o.Repeats)
	var out []Exposure
	for _, r := range runsOf(shown.newDrawings(0, len(shown.Mean)-1), len(shown.Max)) {
		if r.pops {
			out = append(out, r.stepped(out))
		} else {
			out = append(out, r.stretches()...)
		}
	}
	for i := range out {
		e := &out[i]
		e.Start, e.End = frames[e.Start], frames[e.End+1]-1
	}
	return out
}

// drawings are successive frames that show something new, and the frame before
// and after them that does, or where the shot begins and ends.
type drawings struct {
	fresh      []int
	prev, next int
	pops       bool // each is a pose that replaces the one before
}

// runsOf divides the new drawings of a shot of n frames into those that go by a
// pattern and those that pop: evenDrawings or more in a row that stand alone.
func runsOf(fresh []int, n int) []drawings {
	at := func(i int) int {
		if i < 0 {
			return 0
		} else if i >= len(fresh) {
			return n
		}
		return fresh[i]
	}
	var out []drawings
	add := func(from, to int, pops bool) {
		if to > from {
			out = append(out, drawings{fresh[from:to], at(from - 1), at(to), pops})
		}
	}
	done := 0
	for i := 0; i < len(fresh); {
		j := i
		for j < len(fresh) && at(j)-at(j-1) > longestUp && at(j+1)-at(j) > longestUp {
			j++
		}
		if j-i >= evenDrawings {
			add(done, i, false)
			add(i, j, true)
			done = j
		}
		i = max(j, i+1)
	}
	add(done, len(fresh), false)
	return out
}

// stepped is the stretch of poses that pop, with the pose before the first of
// them but for what an earlier stretch has of it.
func (d drawings) stepped(earlier []Exposure) Exposure {
	e := Exposure{Start: d.prev, End: d.next - 1, Pattern: Stepped}
	if n := len(earlier); n > 0 {
		e.Start = max(e.Start, earlier[n-1].End+1)
	}
	e.FramesPerDrawing = float64(e.End-e.Start+1) / float64(len(d.fresh)+1)
	return e
}

// stretches divides drawings by pattern.
func (d drawings) stretches() []Exposure {
	up := make([]int, len(d.fresh)) // frames that each drawing stays up
	for i := range up {
		up[i] = d.next - d.fresh[i]
		if i+1 < len(up) {
			up[i] = d.fresh[i+1] - d.fresh[i]
		}
	}
	told := likeliest(up)
	var out []Exposure
	for i := 0; i < len(up); {
		j := i
		for j < len(up) && told[j] == told[i] {
			j++
		}
		if e, ok := d.stretch(up, i, j, told[i]+1); ok {
			out = append(out, e)
		}
		i = j
	}
	return out
}

// stretch is that of drawings i to j-1, which stay up for the given frames;
// of the pose it lands on as many frames belong to it. ok is false where too few
// of them do to be sure.
func (d drawings) stretch(up []int, i, j, frames int) (e Exposure, ok bool) {
	for i < j && up[i] > longestUp {
		i++
	}
	last := j - 1
	for last > i && up[last] > longestUp {
		last--
	}
	sum, moving, even := 0, 0, 0
	for _, u := range up[i : last+1] {
		if u <= longestUp {
			sum, moving = sum+u, moving+1
		}
		if u == frames {
			even++
		}
	}
	if even < evenDrawings {
		return e, false
	}
	end := d.fresh[last] + min(up[last], frames)
	if last+1 < len(up) && up[last+1] > longestUp {
		end += frames
	}
	return Exposure{
		Start: d.fresh[i], End: end - 1,
		Pattern: patterns[frames-1], FramesPerDrawing: float64(sum) / float64(moving),
	}, true
}
