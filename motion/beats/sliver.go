package beats

import "math"

// moveShare is the least way, in figure heights, that the part which goes
// farthest must make over a whole move. What stays under it leaves the pose as
// it was: the head of somebody who stands quietly strays by about so much, 3 cm
// in a grown person (common practice, no source).
const moveShare = 0.02

// withoutSlivers returns the holds with those moves taken in that lead to no
// other pose: two holds with one in between are one hold, and one at the start
// or the end of the shot belongs to the hold beside it.
func (s Series) withoutSlivers(holds []Beat) []Beat {
	var out []Beat
	last := len(s.Max) - 1
	if len(holds) == 0 && s.sliver(1, last) {
		return []Beat{{Kind: Hold, End: last, Peak: -1}}
	}
	for _, h := range holds {
		switch n := len(out); {
		case n > 0 && s.sliver(out[n-1].End+1, h.Start):
			out[n-1].End = h.End
			continue
		case n == 0 && h.Start > 0 && s.sliver(1, h.Start):
			h.Start = 0
		}
		out = append(out, h)
	}
	if n := len(out); n > 0 && out[n-1].End < last && s.sliver(out[n-1].End+1, last) {
		out[n-1].End = last
	}
	return out
}

// sliver reports whether the steps to frames from to to, taken together, are
// too little for a move. What stillness can show counts for nothing.
func (s Series) sliver(from, to int) bool {
	way := 0.0
	for i := from; i <= to; i++ {
		way += math.Max(0, s.Max[i]-s.floor(i))
	}
	return way < moveShare
}
