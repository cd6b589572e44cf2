package beats

// peak returns the frame of the move from start to end whose mean travel is
// largest. The travel of fast parts is uncertain by a tenth, and a move does not
// speed up and slow down within three drawings, so a quarter of each
// neighbouring drawing's travel is mixed in. Before the first drawing of a move
// and after the last there is none to mix in: a pose that pops is not slowed by
// the hold before it.
func (s Series) peak(start, end int) int {
	drawings := s.newDrawings(start, end)
	peak, most := start, 0.0
	for k, i := range drawings {
		before, after := drawings[max(0, k-1)], drawings[min(len(drawings)-1, k+1)]
		if v := s.Mean[before] + 2*s.Mean[i] + s.Mean[after]; v > most {
			peak, most = i, v
		}
	}
	return peak
}
