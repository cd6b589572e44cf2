package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/stat"
)

var evenTimingRule = &Rule{
	Kind:       "even-timing",
	Measures:   "the times from one move, or pose that pops, to the next: beats that fall like a metronome's read as mechanical",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{evenIntervals, evenVariation, evenNPVI},
	Gauge:      Gauge{Less: true, Names: []string{"interval_variation"}},
	find:       (*review).evenTimingNotes,
}

var (
	evenIntervals = &Threshold{
		Name: "intervals_least", Unit: inCount, Default: 4, Min: 3, Max: 1000, Whole: true,
		Reason: "so many in a row are no chance, as two or three may be", Source: practice,
	}
	evenVariation = &Threshold{
		Name: "variation_most", Unit: inShare, Default: 0.08, Min: 0, Max: 1,
		Reason: "coefficient of variation under which they are even: a frame or two either way in a second", Source: practice,
	}
	evenNPVI = &Threshold{
		Name: "npvi_most", Unit: "nPVI", Default: 10, Min: 0, Max: 200,
		Reason: "and neighbours must be alike too: equal ones give 0, lengths of 3 to 1 in turn give 100",
		Source: "measure of Grabe and Low 2002; the number " + practice,
	}
)

// evenTimingNotes finds beats that fall at even intervals. Those of steps and
// hops have rules of their own.
func (r *review) evenTimingNotes() []Note {
	var notes []Note
	for _, t := range r.tracks() {
		intervals := t.intervals()
		if len(intervals) < r.whole(evenIntervals) || r.bounces(t) || 2*r.goes(t, t.first, t.last) > len(intervals) {
			continue
		}
		spread, npvi := variation(intervals), pairwiseVariability(intervals)
		if spread > r.at(evenVariation) || npvi > r.at(evenNPVI) {
			continue
		}
		accents := t.accents()
		notes = append(notes, Note{
			Start: accents[0], End: accents[len(accents)-1], Weight: WeightLook,
			Text: fmt.Sprintf("%sthe beats fall like a metronome's: %d moves set in about %.0f frames apart, %.0f %% either way; vary how long poses are held",
				r.of(t.figure), len(accents), stat.Mean(intervals, nil), 100*spread),
			Measured: map[string]any{
				"intervals": len(intervals), "mean_interval_frames": round(stat.Mean(intervals, nil), pixelDigits),
				"interval_variation": round(spread, shareDigits), "interval_npvi": round(npvi, pixelDigits),
			},
		})
	}
	return notes
}
