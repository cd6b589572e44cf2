package feet

import (
	"math"
	"slices"
)

// A shoe of the ground's colour is not told from it: the outline ends at the ankle,
// which goes on over a foot that stands. What is told of such a leg would be a slide
// that nobody sees.

const (
	// ankleSlip is how far, in figure heights, an ankle goes that is taken for a slide:
	// what slips by less stands either way.
	ankleSlip = 0.02
	// ankleWidth is how wide it is at most, in soles; a foot that is seen from the side
	// is one sole, a leg half of one.
	ankleWidth = 0.7
	// ankleOver is how far at least, in figure heights, it lies above a sole of its
	// time: a foot's thickness.
	ankleOver = soleShare
)

// shod drops slides of legs whose feet are not seen.
func (w *walker) shod(list []Contact) []Contact {
	return slices.DeleteFunc(slices.Clone(list), func(c Contact) bool {
		return math.Abs(c.Share) >= ankleSlip && w.width(c) <= ankleWidth &&
			slices.ContainsFunc(list, func(o Contact) bool {
				return w.apart(c, o) <= aloftSeconds && w.below(c, o) >= ankleOver && w.width(o) > ankleWidth
			})
	})
}

// width is how wide the lumps are, as a rule, that a contact lies on, in soles; 0 where
// it lies on none.
func (w *walker) width(c Contact) float64 {
	var list []float64
	for i, d := range w.draws {
		if d.start < c.Start || d.end > c.End {
			continue
		}
		at := c.part(d.start, d.start)
		for k := 0; k+1 < len(w.ends[i]); k += 2 {
			if l := w.ends[i][k].lump; w.onLump(place{at.X, at.Y}, l, i) {
				list = append(list, l.width()/w.soleAt(i))
				break
			}
		}
	}
	if len(list) == 0 {
		return 0
	}
	return median(list)
}
