package motion

import (
	"testing"

	"holdfast/motion/figure"
	"holdfast/motion/travel"
)

// TestWorldNoise lays a figure of one row over a map of some rows: each row of
// the world is a band, and the farthest of its cells speaks for it.
func TestWorldNoise(t *testing.T) {
	const cols = 4
	for _, c := range []struct {
		name string
		rows []float32 // travel in each row of the world
		want float64
		wide float64 // what of it three neighbours bear out
	}{
		{"no world", nil, 0, 0},
		{"two parts tell nothing", []float32{1, 1}, 0, 0},
		{"even noise", []float32{0.5, 0.5, 0.5}, 0.5, 0.5},
		{"noise in spots", []float32{0.5, 0, 0.5, 0, 0.5, 0, 0.5}, 0.5, 0},
		{"a passer-by in one part of three", []float32{0, 9, 0}, 0, 0},
		{"a passer-by over noise", []float32{0.25, 9, 9, 0.25, 0.25}, 0.25, 0.25},
	} {
		m := &travel.Map{Cols: cols, Rows: len(c.rows) + 1}
		m.Travel, m.Lost = make([]float32, cols*m.Rows), make([]bool, cols*m.Rows)
		r := figure.Region{Cols: cols, Rows: m.Rows, Cells: make([]bool, cols*m.Rows)}
		for x := range cols {
			r.Cells[x] = true
			m.Travel[x] = 50 // the figure's own travel is no noise
		}
		for row, v := range c.rows {
			for x := 2; x < cols; x++ { // two neighbours bear each other out
				m.Travel[(row+1)*cols+x] = v
			}
		}
		if got, wide := worldNoise(m, r, 1), worldNoise(m, r, areaMost); got != c.want || wide != c.wide {
			t.Errorf("%s: %g and %g over areas, want %g and %g", c.name, got, wide, c.want, c.wide)
		}
	}
}

func TestAreaNeighbours(t *testing.T) {
	for height, want := range map[float64]int{0: 1, 60: 1, 100: 1, 150: 3, 200: 3, 1000: 3} {
		if got := areaNeighbours(height); got != want {
			t.Errorf("%g px: %d neighbours, want %d", height, got, want)
		}
	}
}
