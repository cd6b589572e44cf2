package beats

import "testing"

func TestPeak(t *testing.T) {
	for _, c := range []struct {
		name string
		mean []float64
		want int
	}{
		{"ease in and out", []float64{0, 1, 3, 6, 7, 5, 2, 0}, 4},
		{"a pose that pops and eases", []float64{0, 9, 8.5, 5, 2, 1, 0}, 1},
		{"one stray frame", []float64{0, 2, 5, 4, 8, 8.2, 7.9, 4, 0}, 5},
		{"on twos", []float64{0, 5, 0, 9, 0, 8.8, 0, 3, 0}, 3},
		{"on twos, a pop", []float64{0, 9, 0, 8, 0, 3, 0}, 1},
		{"nothing moves", []float64{0, 0, 0}, 0},
	} {
		s := Series{Max: c.mean, Mean: c.mean}
		if got := s.peak(0, len(c.mean)-1); got != c.want {
			t.Errorf("%s: peak %d, want %d", c.name, got, c.want)
		}
	}
}
