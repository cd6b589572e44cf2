package beats

import (
	"math"
	"slices"
)

// anyFrozen reports whether a figure is ever quite still over a hold: then it
// is no living one, and the plain limit is the right one throughout.
func (s Series) anyFrozen(holds []Beat, exposure []Exposure, o Options) bool {
	return slices.ContainsFunc(holds, func(h Beat) bool {
		return s.holdKind(h.Start, h.End, exposure, o) == Frozen
	})
}

// withRests adds the rests of a living figure where no hold was found: runs
// under restShare that lie deep between the moves on both sides.
func (s Series) withRests(found []Beat, exposure []Exposure, o Options) []Beat {
	calm := make([]bool, len(s.Max))
	for i, v := range s.Max {
		calm[i] = v/o.framesUp(exposure, i) < restShare
	}
	out := slices.Clone(found)
	for _, r := range holds(calm, exposure, o) {
		if !slices.ContainsFunc(found, func(h Beat) bool { return h.Start <= r.End && h.End >= r.Start }) && s.deep(r) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b Beat) int { return a.Start - b.Start })
	return out
}

// deep reports whether r lies between moves that go much farther, each looked
// for up to the length of the rest and a second of custom rate away.
func (s Series) deep(r Beat) bool {
	reach := r.End - r.Start + customRate
	most := func(from, to int) (m float64) {
		for i := max(1, from); i <= min(to, len(s.Max)-1); i++ {
			m = math.Max(m, s.Max[i])
		}
		return m
	}
	inside := most(r.Start+1, r.End)
	before, after := most(r.Start-reach, r.Start), most(r.End+1, r.End+reach)
	return inside <= restDepth*math.Min(before, after)
}
