package feet

import (
	"math"
	"math/rand/v2"
	"testing"
)

// plainSearch goes through the grid row by row and knows nothing of limits.
func plainSearch(rx, ry int, cost func(dx, dy int) float64) (bx, by int, best float64) {
	best = cost(0, 0)
	for dy := -ry; dy <= ry; dy++ {
		for dx := -rx; dx <= rx; dx++ {
			if c := cost(dx, dy); c < best {
				bx, by, best = dx, dy, c
			}
		}
	}
	return bx, by, best
}

// Costs of few values, so that many are equal, and of which some are unknown.
func TestSearchIsThePlainOne(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		rx, ry, values := r.IntN(5), r.IntN(5), 1+r.IntN(8)
		table := map[[2]int]float64{}
		for dy := -ry - 1; dy <= ry+1; dy++ {
			for dx := -rx - 1; dx <= rx+1; dx++ {
				if table[[2]int{dx, dy}] = float64(r.IntN(values)); r.IntN(9) == 0 {
					table[[2]int{dx, dy}] = math.Inf(1)
				}
			}
		}
		at := func(dx, dy int) float64 { return table[[2]int{dx, dy}] }
		bx, by, best := plainSearch(rx, ry, at)
		got := search(rx, ry, 1+r.IntN(4), func(dx, dy int, limit float64) float64 {
			if c := at(dx, dy); c <= limit {
				return c
			}
			return math.Inf(1)
		})
		want := least{dx: float64(bx), dy: float64(by), cost: best}
		want.ok = !math.IsInf(best, 1) && bx > -rx && by > -ry && bx < rx && by < ry
		if want.ok {
			want.l, want.r, want.u, want.d = at(bx-1, by), at(bx+1, by), at(bx, by-1), at(bx, by+1)
			want.dx, want.dy = want.dx+vertex(want.l, best, want.r), want.dy+vertex(want.u, best, want.d)
		}
		if got != want {
			t.Fatalf("%d by %d: %+v, want %+v", rx, ry, got, want)
		}
	}
}

func TestOutwardsComesToAll(t *testing.T) {
	for rx := range 5 {
		for ry := range 5 {
			seen := map[[2]int]int{}
			outwards(rx, ry, func(dx, dy int) { seen[[2]int{dx, dy}]++ })
			for dy := -ry; dy <= ry; dy++ {
				for dx := -rx; dx <= rx; dx++ {
					if want := min(1, dx*dx+dy*dy); seen[[2]int{dx, dy}] != want {
						t.Errorf("%d by %d: (%d, %d) %d times", rx, ry, dx, dy, seen[[2]int{dx, dy}])
					}
				}
			}
			if len(seen) != (2*rx+1)*(2*ry+1)-1 {
				t.Errorf("%d by %d: %d places", rx, ry, len(seen))
			}
		}
	}
}
