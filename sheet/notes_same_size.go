package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/stat"
)

var sameSizeRule = &Rule{
	Kind:       "same-size-moves",
	Measures:   "moves of a shot that are all of one size; big and little ones read better",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{sameMoves, sameVariation},
	Gauge:      Gauge{Less: true, Names: []string{"size_variation"}},
	find:       (*review).sameSizeNotes,
}

var (
	sameMoves = &Threshold{
		Name: "moves_least", Unit: inCount, Default: 5, Min: 3, Max: 1000, Whole: true,
		Reason: "so many moves have a variety to speak of", Source: practice,
	}
	sameVariation = &Threshold{
		Name: "size_variation_most", Unit: inShare, Default: 0.15, Min: 0, Max: 1,
		Reason: "coefficient of variation under which sizes are alike: they are measured to a tenth", Source: accuracy,
	}
)

// sameSizeNotes finds shots whose moves are all of one size. Hops have a rule of
// their own.
func (r *review) sameSizeNotes() []Note {
	var notes []Note
	for _, t := range r.tracks() {
		moves, sizes := t.moves(), t.sizes()
		if len(moves) < r.whole(sameMoves) || r.bounces(t) || variation(sizes) > r.at(sameVariation) ||
			2*r.goes(t, t.first, t.last) > len(moves) {
			continue
		}
		notes = append(notes, Note{
			Start: moves[0].Start, End: moves[len(moves)-1].End, Weight: WeightLook,
			Text: fmt.Sprintf("%sthe %d moves are all of one size, %.0f %% either way: some big and some little would read better",
				r.of(t.figure), len(moves), 100*variation(sizes)),
			Measured: map[string]any{
				"moves": len(moves), "mean_size": round(stat.Mean(sizes, nil), shareDigits), "size_variation": round(variation(sizes), shareDigits),
			},
		})
	}
	return notes
}
