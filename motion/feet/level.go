package feet

import (
	"math"
	"slices"
)

// level drops what keeps its place in the air beside other things that do: hems,
// hands and what stays of a set are the higher for being several.
func (w *walker) level(list []Contact) []Contact {
	levels := w.levels(list)
	return slices.DeleteFunc(slices.Clone(list), func(c Contact) bool {
		own := slices.IndexFunc(levels, func(l []Contact) bool { return slices.Contains(l, c) })
		return slices.ContainsFunc(levels, func(l []Contact) bool {
			return frames(l) > frames(levels[own]) && w.carries(l, levels[own])
		})
	})
}

// levels sorts contacts by their ground: two of a time are on one where neither is
// aloft over the other, and so are those that both share it with.
func (w *walker) levels(list []Contact) [][]Contact {
	left := slices.Clone(list)
	var levels [][]Contact
	for len(left) > 0 {
		level := left[:1:1]
		left = left[1:]
		for i := 0; i < len(level); i++ {
			left = slices.DeleteFunc(left, func(c Contact) bool {
				joins := w.apart(c, level[i]) <= aloftSeconds && math.Abs(w.below(c, level[i])) < aloftShare
				if joins {
					level = append(level, c)
				}
				return joins
			})
		}
		levels = append(levels, level)
	}
	return levels
}

// carries reports whether all of a level lies in the air over contacts of another
// that stand meanwhile.
func (w *walker) carries(low, high []Contact) bool {
	return !slices.ContainsFunc(high, func(c Contact) bool {
		return !slices.ContainsFunc(low, func(o Contact) bool {
			return w.apart(c, o) <= 0 && w.below(c, o) >= aloftShare
		})
	})
}

// frames is for how many frames the contacts of a level last, all told.
func frames(level []Contact) (n int) {
	for _, c := range level {
		n += c.End - c.Start + 1
	}
	return n
}

// apart is how far two contacts are apart in time, seconds; 0 and less where both
// stand at a time.
func (w *walker) apart(a, b Contact) float64 {
	return float64(max(a.Start, b.Start)-min(a.End, b.End)) / w.s.Rate
}

// below is how far o lies below c, figure heights.
func (w *walker) below(c, o Contact) float64 {
	_, dy := w.still(o.Start, c.Start, o.X, o.Y)
	return (o.Y + dy - c.Y) / w.tallIn(c.Start)
}
