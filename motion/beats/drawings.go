package beats

const (
	// newShare is the part of the largest step nearby from which a step shows
	// a new drawing and not the same one again: what coding mends of a drawing
	// on the frame after stays under a tenth of it.
	newShare = 0.1
	// newReach is how many frames either side are nearby: one drawing on
	// fours and its neighbour.
	newReach = 5
)

// newDrawings returns the frames from start to end that show something new.
func (s Series) newDrawings(start, end int) []int {
	var fresh []int
	for i := max(1, start); i <= end; i++ {
		if s.isNew(i) {
			fresh = append(fresh, i)
		}
	}
	return fresh
}

// isNew reports whether frame i shows a new drawing.
func (s Series) isNew(i int) bool {
	most := 0.0
	for _, v := range s.Mean[max(1, i-newReach):min(len(s.Mean), i+newReach+1)] {
		most = max(most, v)
	}
	return s.changes(i) && s.Mean[i] >= newShare*most
}
