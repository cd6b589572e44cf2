package beats

// changePrice is what a change of pattern costs in drawings out of step: to
// change and to change back pays for evenDrawings, and for no fewer.
const changePrice = evenDrawings/2.0 - 0.25

// likeliest returns for each drawing the pattern, an index into patterns, that
// leaves the fewest of all out of step, changes of pattern counted in: A.
// Viterbi, "Error Bounds for Convolutional Codes", 1967. up holds for how many
// frames each drawing stays up.
func likeliest(up []int) []int {
	type state [longestUp]float64
	var cost state
	from := make([][longestUp]int, len(up)) // the pattern of the drawing before
	for i, u := range up {
		cheapest := 0
		for p := range cost {
			if cost[p] < cost[cheapest] {
				cheapest = p
			}
		}
		var next state
		for p := range next {
			from[i][p] = p
			next[p] = cost[p]
			if changed := cost[cheapest] + changePrice; changed < cost[p] {
				from[i][p], next[p] = cheapest, changed
			}
			next[p] += outOfStep(u, p)
		}
		cost = next
	}
	best := 0
	for p := range cost {
		if cost[p] < cost[best] {
			best = p
		}
	}
	out := make([]int, len(up))
	for i := len(up) - 1; i >= 0; i-- {
		out[i] = best
		best = from[i][best]
	}
	return out
}

// outOfStep is what a drawing that stays up for so many frames costs a pattern;
// a pose kept says nothing.
func outOfStep(up, pattern int) float64 {
	if up > longestUp || up == pattern+1 {
		return 0
	}
	return 1
}
