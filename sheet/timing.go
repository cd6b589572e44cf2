package sheet

import "math"

// A Timing is the texture of one figure's beats over a shot. Variations are
// coefficients of variation, standard deviation over mean; nPVI is the
// normalised pairwise variability index, 0 for equal lengths. Neither is given
// for fewer than timingLeast lengths. Beats that the shot cuts off have no
// length of their own and do not count.
type Timing struct {
	Shot   int `json:"shot"`
	Figure int `json:"figure"`

	BeatVariation     *float64 `json:"beat_variation,omitempty"` // of the lengths of beats
	BeatNPVI          *float64 `json:"beat_npvi,omitempty"`
	IntervalVariation *float64 `json:"interval_variation,omitempty"` // of the times from one move, or pose that pops, to the next
	IntervalNPVI      *float64 `json:"interval_npvi,omitempty"`
	SizeVariation     *float64 `json:"size_variation,omitempty"` // of the sizes of moves

	WithoutHold  *Stretch `json:"longest_without_hold,omitempty"`
	ShortestHold *Stretch `json:"shortest_hold,omitempty"`
	Frozen       *Stretch `json:"longest_frozen,omitempty"`
}

// A Stretch is a run of frames.
type Stretch struct {
	Start  int `json:"start"`
	End    int `json:"end"`
	Frames int `json:"frames"`
}

// timingLeast is how many lengths have an evenness to speak of.
const timingLeast = 3

// timings derives the texture of each figure's beats, for those that move at all.
func (s *Sheet) timings() []Timing {
	list := []Timing{}
	for _, t := range s.tracks() {
		if len(t.beats) > 1 || t.beats[0].Kind == KindMove {
			list = append(list, t.timing())
		}
	}
	return list
}

func (t track) timing() Timing {
	out := Timing{Shot: t.shot, Figure: t.figure}
	out.BeatVariation, out.BeatNPVI = evennessOf(t.lengths())
	out.IntervalVariation, out.IntervalNPVI = evennessOf(t.intervals())
	out.SizeVariation, _ = evennessOf(t.sizes())
	for _, run := range t.movingRuns() {
		out.WithoutHold = longest(out.WithoutHold, &run)
	}
	for _, b := range t.beats {
		if b.Kind != KindHold {
			continue
		}
		held := &Stretch{b.Start, b.End, b.Frames}
		if t.whole(b) && (out.ShortestHold == nil || held.Frames < out.ShortestHold.Frames) {
			out.ShortestHold = held
		}
		if b.Hold == HoldFrozen {
			out.Frozen = longest(out.Frozen, held)
		}
	}
	return out
}

// longest is the longer of two stretches, the first where they are alike.
func longest(a, b *Stretch) *Stretch {
	if a == nil || b.Frames > a.Frames {
		return b
	}
	return a
}

// evennessOf returns coefficient of variation and nPVI of some lengths, nil where
// they are too few.
func evennessOf(v []float64) (variationOf, npvi *float64) {
	if len(v) < timingLeast {
		return nil, nil
	}
	a, b := round(variation(v), shareDigits), round(pairwiseVariability(v), pixelDigits)
	return &a, &b
}

// pairwiseVariability is the nPVI of successive lengths: 100 times the mean of
// the differences of neighbours, each against the mean of the two. E. Grabe and
// E. L. Low, "Durational variability in speech and the rhythm class hypothesis",
// 2002. It is 0 for fewer than two.
func pairwiseVariability(v []float64) float64 {
	if len(v) < 2 {
		return 0
	}
	sum := 0.0
	for i := 1; i < len(v); i++ {
		if mean := (v[i] + v[i-1]) / 2; mean != 0 {
			sum += math.Abs(v[i]-v[i-1]) / mean
		}
	}
	return 100 * sum / float64(len(v)-1)
}
