package motion

import (
	"slices"
	"testing"
)

func TestBridge(t *testing.T) {
	for _, c := range []struct {
		name   string
		hidden []bool
		want   []float64 // of the series 9 9 1 2 3 4 5, whose last five are new
	}{
		{"nothing hidden", make([]bool, 5), []float64{9, 9, 1, 2, 3, 4, 5}},
		{"one step", []bool{false, false, true, false, false}, []float64{9, 9, 1, 2, 2, 4, 5}},
		{"three steps", []bool{false, true, true, true, false}, []float64{9, 9, 1, 1, 1, 1, 5}},
		{"from the start", []bool{true, true, false, false, false}, []float64{9, 9, 1, 2, 3, 4, 5}},
		{"to the end", []bool{false, false, false, true, true}, []float64{9, 9, 1, 2, 3, 4, 5}},
	} {
		r := rawSeries{max: []float64{9, 9, 1, 2, 3, 4, 5}}
		r.mean, r.pace, r.wide = slices.Clone(r.max), slices.Clone(r.max), slices.Clone(r.max)
		r.bridge(c.hidden)
		for _, got := range [][]float64{r.max, r.mean, r.pace, r.wide} {
			if !slices.Equal(got, c.want) {
				t.Errorf("%s: %v, want %v", c.name, got, c.want)
			}
		}
	}
}
