package assemble

import (
	"slices"
	"testing"

	"holdfast/extract"
	"holdfast/motion"
)

func TestNothingMovesIsSaid(t *testing.T) {
	for name, c := range map[string]struct {
		curve   []float64
		figures []motion.Figure
		want    bool
	}{
		"still":          {[]float64{0, 0, 0}, nil, true},
		"something goes": {[]float64{0, 0.2, 0}, nil, false},
		"a still figure": {[]float64{0, 0, 0}, make([]motion.Figure, 1), false},
	} {
		r := &motion.Result{Frames: 3, Shots: make([]motion.Shot, 1), Beats: make([]motion.Beat, 1), Figures: c.figures}
		r.Curve.Motion = c.curve
		if got := slices.Contains(New(extract.Clip{}, r).stillness(), nothingMoves); got != c.want {
			t.Errorf("%s: said %v", name, got)
		}
	}
}
