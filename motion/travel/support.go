package travel

// supportShare is the part of a cell's travel that one of its neighbours must
// share for it to count: windows overlap, so whatever moves shows in two.
const supportShare = 0.6

// Supported returns the travel of cell i that a neighbour bears out, pixels:
// the smaller of its own and of its best neighbour's over supportShare.
func (m *Map) Supported(i int) float64 { return m.BorneOut(i, 1) }

// BorneOut returns the travel of cell i that n of its neighbours, 1 to 8, bear
// out, pixels.
func (m *Map) BorneOut(i, n int) float64 {
	v := m.Travel[i]
	if v == 0 {
		return 0
	}
	var best [8]float32 // of the neighbours, the farthest first
	col, row := i%m.Cols, i/m.Cols
	for y := max(0, row-1); y <= min(m.Rows-1, row+1); y++ {
		for x := max(0, col-1); x <= min(m.Cols-1, col+1); x++ {
			if j := y*m.Cols + x; j != i {
				insert(best[:n], m.Travel[j])
			}
		}
	}
	return float64(min(v, best[n-1]/supportShare))
}

// insert puts v in its place in a list that falls, whose last value goes.
func insert(list []float32, v float32) {
	for k := range list {
		if v > list[k] {
			list[k], v = v, list[k]
		}
	}
}
