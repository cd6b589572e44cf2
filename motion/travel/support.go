package travel

// supportShare is the part of a cell's travel that one of its neighbours must
// share for it to count: windows overlap, so whatever moves shows in two.
const supportShare = 0.6

// Supported returns the travel of cell i that a neighbour bears out, pixels:
// the smaller of its own and of its best neighbour's over supportShare.
func (m *Map) Supported(i int) float64 {
	v := m.Travel[i]
	if v == 0 {
		return 0
	}
	col, row := i%m.Cols, i/m.Cols
	var best float32
	for y := max(0, row-1); y <= min(m.Rows-1, row+1); y++ {
		for x := max(0, col-1); x <= min(m.Cols-1, col+1); x++ {
			if j := y*m.Cols + x; j != i {
				best = max(best, m.Travel[j])
			}
		}
	}
	return float64(min(v, best/supportShare))
}
