// Package changes finds the frames on which a series turns from lively to quiet or
// back.
package changes

import (
	"math"
	"slices"
)

// A Stretch is part of a series, from From on and up to To, that one included, over
// which it is as lively throughout as far as can be told.
type Stretch struct {
	From, To int
	Mean     float64 // figure heights from frame to frame, each step as far as it counts
}

const (
	// leastSeconds is the shortest stretch: a hold between two gestures, or one
	// gesture in a calm passage, is no change of mood. Poses that are meant to be
	// read stay for a second or so (common practice, no source).
	leastSeconds = 2.0
	// tellingRatio is how many times as lively one of two neighbouring shortest
	// stretches must be as the other to be told apart; longer ones are by less.
	tellingRatio = 4.0
	// quietShare and quietPace are what counts as no motion at all, as a share of
	// the mean of the series and in figure heights a second: under either one hold is
	// as quiet as another. A chest that breathes goes up and down by about a
	// hundredth of the height in two seconds (from memory), a body that talks moves
	// ten times as much.
	quietShare = 0.1
	quietPace  = 0.05
	// jumpPace is the most that a step counts, in figure heights a second: one who
	// runs at four metres a second, as joggers do, is no slower (from memory). A pose
	// that replaces another goes far in no time, and is not lively by that.
	jumpPace = 2.5
)

// Find cuts a series of speeds, figure heights from frame to frame at a rate of
// frames a second, into stretches. Each pays
// for itself: the penalty is what telling two shortest stretches apart gains where
// their means stand as one to tellingRatio.
//
// The method is PELT: R. Killick, P. Fearnhead, I. Eckley, "Optimal Detection of
// Changepoints With a Linear Computational Cost", JASA 107, 2012. The cost of a
// stretch of n values is n times the logarithm of its mean, twice the negative log
// likelihood of speeds that are distributed exponentially up to what is the same for
// all: it asks how many times as fast, not by how much.
func Find(speed []float64, rate float64) []Stretch {
	n := len(speed)
	if n == 0 {
		return nil
	}
	least := max(1, int(math.Round(leastSeconds*rate)))
	s := newSeries(speed, rate)
	var list []Stretch
	for _, to := range s.cut(least, penalty(least)) {
		from := 0
		if k := len(list); k > 0 {
			from = list[k-1].To + 1
		}
		list = append(list, Stretch{from, to - 1, (s.sums[to] - s.sums[from]) / float64(to-from)})
	}
	return list
}

// penalty is what two stretches of so many values gain at the tellingRatio.
func penalty(least int) float64 {
	const r = tellingRatio
	return float64(least) * math.Log((1+r)*(1+r)/(4*r))
}

// Settings are the thresholds, by the names they have in a sheet.
func Settings() map[string]any {
	return map[string]any{
		"lively_least_s": leastSeconds, "lively_ratio": tellingRatio, "lively_quiet_share": quietShare, "lively_quiet_heights_s": quietPace, "lively_jump_heights_s": jumpPace,
	}
}

// A series answers for the cost of its stretches.
type series struct {
	sums  []float64 // of the values before each
	floor float64   // added to each mean
}

func newSeries(speed []float64, rate float64) series {
	s := series{sums: make([]float64, len(speed)+1)}
	for i, v := range speed {
		s.sums[i+1] = s.sums[i] + min(v, jumpPace/rate)
	}
	s.floor = max(quietPace/rate, quietShare*s.sums[len(speed)]/float64(len(speed)))
	return s
}

// cost is that of the values from a on, b not included.
func (s series) cost(a, b int) float64 {
	n := float64(b - a)
	return n * math.Log((s.sums[b]-s.sums[a])/n+s.floor)
}

// A start is a place where the last stretch may begin.
type start struct {
	at    int
	until int // the last end for which it may still win
}

// cut returns the ends of the stretches of least total cost, each of which costs a
// penalty more and holds least values, or all there are.
func (s series) cut(least int, penalty float64) []int {
	n := len(s.sums) - 1
	best, from := make([]float64, n+1), make([]int, n+1)
	best[0] = -penalty
	starts := []start{{0, math.MaxInt}}
	for end := 1; end <= n; end++ {
		best[end] = math.Inf(1)
		if new := end - least; new > 0 && !math.IsInf(best[new], 1) {
			starts = append(starts, start{new, math.MaxInt})
		}
		if end < least && end < n {
			continue
		}
		for _, c := range starts {
			if v := best[c.at] + s.cost(c.at, end) + penalty; v < best[end] {
				best[end], from[end] = v, c.at
			}
		}
		starts = s.pruned(starts, end, least, best)
	}
	var ends []int
	for end := n; end > 0; end = from[end] {
		ends = append(ends, end)
	}
	slices.Reverse(ends)
	return ends
}

// pruned drops the starts that cannot win any more. One that loses against a cut at
// end does so for every later end as well, from the first on for which that cut
// leaves a stretch long enough.
func (s series) pruned(starts []start, end, least int, best []float64) []start {
	kept := starts[:0]
	for _, c := range starts {
		if best[c.at]+s.cost(c.at, end) > best[end] {
			c.until = min(c.until, end+least-1)
		}
		if c.until > end {
			kept = append(kept, c)
		}
	}
	return kept
}
