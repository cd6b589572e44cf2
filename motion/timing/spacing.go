package timing

import "math"

const (
	// easedShare is the share of full speed under which a move still eases in, or
	// eases out already: half a cosine is under it for a fifth of its time at either
	// end, and what goes evenly never is, as the speed of a part is measured to a
	// third where it goes before the body and beside it.
	easedShare = 0.6
	// easeDrawings is the fewest drawings of a move with an ease to speak of: of three
	// the fastest stands next to both ends.
	easeDrawings = 4
)

// A Spacing is how far each drawing of a move goes from the one before, and how the
// move eases. The last drawing is the pose that it lands on.
type Spacing struct {
	Frames []int     // the first frame of each drawing
	Travel []float64 // travel a frame on the way to it, in the unit it came in
	// EaseIn and EaseOut are the frames at either end that go slower than easedShare
	// of full speed; NaN where the stretch measured begins or ends with the move, or it
	// has too few drawings.
	EaseIn, EaseOut float64
	// Least is the slowest drawing between both eases against full speed, 0 to 1: 1
	// for an even middle; NaN where EaseIn and EaseOut would be for want of drawings.
	Least float64
}

// Space reads the spacing of the move from start to end out of what each frame
// travels from the one before. The first value of travel has no frame before it.
func Space(travel []float64, start, end int, w Way) Spacing {
	p := Drawn(travel, max(1, start), end+1, w)
	s := Spacing{Frames: p.Frames, Travel: p.Speed, EaseIn: math.NaN(), EaseOut: math.NaN(), Least: math.NaN()}
	n, most := len(p.Speed), p.full()
	if n < easeDrawings || most == 0 {
		return s
	}
	first, last := 0, n-1 // the outermost drawings at full speed
	for p.Speed[first] < easedShare*most {
		first++
	}
	for p.Speed[last] < easedShare*most {
		last--
	}
	s.Least = 1
	for _, v := range p.Speed[first : last+1] {
		s.Least = min(s.Least, v/most)
	}
	up := w.Rate / p.Rate // frames a drawing
	if start > 0 {
		s.EaseIn = p.eased(first, -1, most) * up
	}
	if end+1 < len(travel) {
		s.EaseOut = p.eased(last, 1, most) * up
	}
	return s
}

// full is the speed that a move comes up to: that of its fastest drawing, but for one
// that stands alone, which flow may have got wrong.
func (p Profile) full() float64 {
	full := 0.0
	for k := 1; k < len(p.Speed)-1; k++ {
		full = max(full, median3(p.Speed[k-1], p.Speed[k], p.Speed[k+1]))
	}
	return full
}

func median3(a, b, c float64) float64 { return max(min(a, b), min(max(a, b), c)) }

// eased is how many drawings go by between an end of the move and the time at which
// the speed comes up to easedShare of the most, k being the outermost drawing that
// is at full speed and step the way out from it. The speed of a drawing is that in
// the middle of its time.
func (p Profile) eased(k, step int, most float64) float64 {
	out := k
	if step > 0 {
		out = len(p.Speed) - 1 - k
	}
	if out == 0 {
		return 0
	}
	a, b := p.Speed[k+step], p.Speed[k]
	return float64(out) - 0.5 + (easedShare*most-a)/(b-a)
}

// Later returns the same with its frames counted from an earlier one.
func (s Spacing) Later(frames int) Spacing {
	list := make([]int, len(s.Frames))
	for i, f := range s.Frames {
		list[i] = f + frames
	}
	s.Frames = list
	return s
}
