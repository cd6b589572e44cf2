package figure

import (
	"math"
	"slices"
)

// An assigner pairs rows with columns of a square matrix of costs so that the
// sum is least, by shortest augmenting paths: R. Jonker, A. Volgenant, "A
// shortest augmenting path algorithm for dense and sparse linear assignment
// problems", Computing 38, 1987, of its start only the reduction, by rows; the
// search as D. F. Crouse, "On implementing 2D rectangular assignment algorithms",
// IEEE Transactions on Aerospace and Electronic Systems 52, 2016, writes it down.
type assigner struct {
	u, v     []float32 // the dual variables of rows and columns
	least    []float32 // of each column the cheapest path to it so far
	from     []int32   // the row that path comes from
	row, col []int32   // of each column its row, of each row its column; nobody: none
	open     []int32   // columns whose cheapest path is not certain yet
	shut     []int32   // the others, as they became certain
}

// nobody is what a row or column without a partner is paired with.
const nobody = -1

// assign returns for each of n rows its column; cost is row by row.
func (a *assigner) assign(cost []float32, n int, columns []int) []int {
	a.reset(n)
	a.reduce(cost, n)
	for r := range int32(n) {
		if a.col[r] == nobody {
			a.augment(cost, n, r)
		}
	}
	columns = columns[:0]
	for _, c := range a.col {
		columns = append(columns, int(c))
	}
	return columns
}

func (a *assigner) reset(n int) {
	a.u, a.v = slices.Grow(a.u[:0], n)[:n], slices.Grow(a.v[:0], n)[:n]
	a.least, a.from = slices.Grow(a.least[:0], n)[:n], slices.Grow(a.from[:0], n)[:n]
	a.row, a.col = slices.Grow(a.row[:0], n)[:n], slices.Grow(a.col[:0], n)[:n]
	a.open, a.shut = slices.Grow(a.open[:0], n)[:n], slices.Grow(a.shut[:0], n)[:n]
	clear(a.v)
	for i := range n {
		a.row[i], a.col[i] = nobody, nobody
	}
}

// reduce gives each row its cheapest column where no row before it has that.
func (a *assigner) reduce(cost []float32, n int) {
	for r := range n {
		line := cost[r*n : (r+1)*n]
		best := 0
		for c, v := range line {
			if v < line[best] {
				best = c
			}
		}
		a.u[r] = line[best]
		if a.row[best] == nobody {
			a.row[best], a.col[r] = int32(r), int32(best)
		}
	}
}

// augment finds row r a column, moving others along the cheapest path.
func (a *assigner) augment(cost []float32, n int, r int32) {
	a.open, a.shut = a.open[:n], a.shut[:0]
	for c := range a.open {
		a.open[c], a.least[c] = int32(c), math.MaxFloat32
	}
	far, end := float32(0), int32(nobody)
	for at := r; at != nobody; at = a.row[end] {
		k := a.reach(cost[int(at)*n:int(at+1)*n], at, far)
		end = a.open[k]
		far = a.least[end]
		last := len(a.open) - 1
		a.open[k] = a.open[last]
		a.open, a.shut = a.open[:last], append(a.shut, end)
	}
	a.weigh(r, far)
	a.turn(r, end)
}

// reach carries the paths on by way of a row that is far from the start, and
// returns which of the open columns is nearest then.
func (a *assigner) reach(line []float32, at int32, far float32) (nearest int) {
	ahead, best := far-a.u[at], float32(math.Inf(1))
	for k, c := range a.open {
		d := a.least[c]
		if by := ahead + line[c] - a.v[c]; by < d {
			d = by
			a.least[c], a.from[c] = by, at
		}
		if d < best {
			best, nearest = d, k
		}
	}
	return nearest
}

// weigh sets the dual variables of what the search from row r has settled, far
// being the length of the path that it found.
func (a *assigner) weigh(r int32, far float32) {
	a.u[r] += far
	for _, c := range a.shut {
		if held := a.row[c]; held != nobody {
			a.u[held] += far - a.least[c]
		}
		a.v[c] -= far - a.least[c]
	}
}

// turn pairs what lies along the path from row r to a column anew.
func (a *assigner) turn(r, c int32) {
	for {
		row := a.from[c]
		a.row[c] = row
		a.col[row], c = c, a.col[row]
		if row == r {
			return
		}
	}
}
