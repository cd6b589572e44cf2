package figure

import "math"

// An assigner pairs rows with columns of a square matrix of costs so that the
// sum is least, by shortest augmenting paths: R. Jonker, A. Volgenant, "A
// shortest augmenting path algorithm for dense and sparse linear assignment
// problems", Computing 38, 1987 (without its start-up heuristics).
type assigner struct {
	u, v, least []float32
	row, back   []int // of each column, from 1; 0 is the column that starts a path
	used        []bool
}

// assign returns for each of n rows its column; cost is row by row.
func (a *assigner) assign(cost []float32, n int, columns []int) []int {
	a.reset(n)
	for r := 1; r <= n; r++ {
		a.augment(cost, n, r)
	}
	columns = append(columns[:0], make([]int, n)...)
	for c := 1; c <= n; c++ {
		columns[a.row[c]-1] = c - 1
	}
	return columns
}

func (a *assigner) reset(n int) {
	a.u, a.v = append(a.u[:0], make([]float32, n+1)...), append(a.v[:0], make([]float32, n+1)...)
	a.least = append(a.least[:0], make([]float32, n+1)...)
	a.row, a.back = append(a.row[:0], make([]int, n+1)...), append(a.back[:0], make([]int, n+1)...)
	a.used = append(a.used[:0], make([]bool, n+1)...)
}

// augment finds row r a column, moving others along the cheapest path.
func (a *assigner) augment(cost []float32, n, r int) {
	for c := range a.least {
		a.least[c], a.used[c] = math.MaxFloat32, false
	}
	a.row[0] = r
	c := 0
	for a.row[c] != 0 {
		a.used[c] = true
		i, next, step := a.row[c], 0, float32(math.MaxFloat32)
		line := cost[(i-1)*n : i*n]
		for k := 1; k <= n; k++ {
			if a.used[k] {
				continue
			}
			if d := line[k-1] - a.u[i] - a.v[k]; d < a.least[k] {
				a.least[k], a.back[k] = d, c
			}
			if a.least[k] < step {
				step, next = a.least[k], k
			}
		}
		for k := 0; k <= n; k++ {
			if a.used[k] {
				a.u[a.row[k]] += step
				a.v[k] -= step
			} else {
				a.least[k] -= step
			}
		}
		c = next
	}
	for c != 0 {
		a.row[c] = a.row[a.back[c]]
		c = a.back[c]
	}
}
