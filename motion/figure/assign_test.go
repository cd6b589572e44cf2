package figure

import (
	"math"
	"math/rand/v2"
	"slices"
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

// Where there are too many ways to try, duality proves the best: no pairing costs
// less than the sum of what rows and columns are worth, where no pair costs less
// than its own row and column.
func TestAssignManyIsCheapest(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	var a assigner
	for _, n := range []int{40, 150, 300} {
		cost := make([]float32, n*n)
		for i := range cost {
			cost[i] = r.Float32() * float32(1+i%7)
		}
		columns := a.assign(cost, n, nil)
		sum, worth := 0.0, 0.0
		for i, c := range columns {
			sum, worth = sum+float64(cost[i*n+c]), worth+float64(a.u[i])+float64(a.v[i])
			for j := range n {
				if left := cost[i*n+j] - a.u[i] - a.v[j]; left < -1e-4 {
					t.Fatalf("of %d, row %d and column %d cost %g less than they are worth", n, i, j, -left)
				}
			}
		}
		slices.Sort(columns)
		for i, c := range columns {
			if c != i {
				t.Fatalf("of %d, columns given twice: %v", n, columns)
			}
		}
		if math.Abs(sum-worth) > 1e-3 {
			t.Errorf("of %d, cost %g, no pairing can cost less than %g", n, sum, worth)
		}
	}
}

func BenchmarkAssign(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 6))
	const n = 300
	x, y, tone := make([]float64, n), make([]float64, n), make([]float32, n)
	for i := range x {
		x[i], y[i], tone[i] = float64(r.IntN(60)), float64(r.IntN(60)), float32(r.IntN(50))
	}
	cost := make([]float32, n*n)
	for i := range n {
		for j := range n {
			cost[i*n+j] = abs(tone[i]-tone[(j+n/2)%n]) + 0.3*float32(math.Hypot(x[i]-x[j], y[i]-y[j]))
		}
	}
	var a assigner
	var columns []int
	for b.Loop() {
		columns = a.assign(cost, n, columns)
	}
}
