package figure

import "holdfast/motion/travel"

const (
	// leastLost is how many cells flow must lose before the frames themselves
	// are compared.
	leastLost = 3
	// astray is the share of lost cells from which flow is not believed in any
	// cell of a group: where it loses so much, what it found is chance likeness.
	astray = 0.4
)

// lostCells marks the cells whose travel flow does not tell: those it lost, and
// all of a group of moving cells of which it lost too many. any is false where
// there are too few to matter.
func lostCells(m *travel.Map) (cells []bool, any bool) {
	cells = make([]bool, len(m.Travel))
	seen := make([]bool, len(m.Travel))
	n := 0
	for i := range m.Travel {
		if seen[i] || !moves(m, i) {
			continue
		}
		group := gather(m, i, seen, func(j int) bool { return moves(m, j) })
		lost := 0
		for _, j := range group {
			if m.Lost[j] {
				lost++
			}
		}
		n += lost
		all := float64(lost) >= astray*float64(len(group))
		for _, j := range group {
			cells[j] = all || m.Lost[j]
		}
	}
	return cells, n >= leastLost
}

func moves(m *travel.Map, i int) bool { return m.Lost[i] || m.Travel[i] > 0 }

// gather returns the cells of a kind that hang together with cell i, and marks
// them as seen.
func gather(m *travel.Map, i int, seen []bool, kind func(j int) bool) []int {
	group := []int{i}
	seen[i] = true
	for k := 0; k < len(group); k++ {
		col, row := group[k]%m.Cols, group[k]/m.Cols
		for y := max(0, row-1); y <= min(m.Rows-1, row+1); y++ {
			for x := max(0, col-1); x <= min(m.Cols-1, col+1); x++ {
				if j := y*m.Cols + x; !seen[j] && kind(j) {
					seen[j] = true
					group = append(group, j)
				}
			}
		}
	}
	return group
}
