package figure

import (
	"math"
	"math/rand/v2"
	"testing"
)

// cheapest tries all ways to pair the rows from r on with the columns left.
func cheapest(cost []float32, n, r int, taken []bool) float64 {
	if r == n {
		return 0
	}
	best := math.Inf(1)
	for c := range n {
		if !taken[c] {
			taken[c] = true
			best = min(best, float64(cost[r*n+c])+cheapest(cost, n, r+1, taken))
			taken[c] = false
		}
	}
	return best
}

func TestAssignIsCheapest(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var a assigner
	var columns []int
	for _, n := range []int{1, 2, 3, 5, 7, 4} {
		for range 20 {
			cost := make([]float32, n*n)
			for i := range cost {
				cost[i] = float32(r.IntN(40)) // few values, so that there are ties
			}
			columns = a.assign(cost, n, columns)
			sum, seen := 0.0, make([]bool, n)
			for row, c := range columns {
				if seen[c] {
					t.Fatalf("column %d given twice: %v", c, columns)
				}
				seen[c] = true
				sum += float64(cost[row*n+c])
			}
			if want := cheapest(cost, n, 0, make([]bool, n)); sum != want {
				t.Errorf("%d rows: cost %g, want %g", n, sum, want)
			}
		}
	}
}
