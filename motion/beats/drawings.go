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

// newDrawings returns the frames that show something new.
func newDrawings(s Series) []int {
	var fresh []int
	for i := 1; i < len(s.Mean); i++ {
		most := 0.0
		for j := max(1, i-newReach); j <= min(len(s.Mean)-1, i+newReach); j++ {
			most = max(most, s.Mean[j])
		}
		if s.changes(i) && s.Mean[i] >= newShare*most {
			fresh = append(fresh, i)
		}
	}
	return fresh
}
