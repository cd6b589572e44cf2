package main

import "math"

// assign pairs n true things with m found ones, each with at most one of the
// other kind: as many as can be, and of all ways to do that the one whose
// values add up to most. Value is from 0 to 1 for a pair that may be, NaN for
// one that may not. It returns the found one of each true one, -1 for none.
//
// The method is that of match by way of shortest augmenting paths: R. Jonker &
// A. Volgenant, "A Shortest Augmenting Path Algorithm for Dense and Sparse
// Linear Assignment Problems", 1987 (from memory). Things that stand side by
// side, such as two feet, need the values: each fits either's place.
func assign(n, m int, value func(i, j int) float64) []int {
	size := max(n, m)
	// One pair more outweighs all that values can add up to.
	pair := float64(size + 1)
	cost := make([][]float64, size)
	for i := range cost {
		cost[i] = make([]float64, size)
		for j := range cost[i] {
			if i >= n || j >= m {
				continue
			}
			if v := value(i, j); !math.IsNaN(v) {
				cost[i][j] = -pair - v
			}
		}
	}
	partner := filled(n, -1)
	for j, i := range cheapest(cost) {
		if i < n && j < m && cost[i][j] < 0 {
			partner[i] = j
		}
	}
	return partner
}

// cheapest returns the row of each column of a square matrix so that the costs
// add up to least.
func cheapest(cost [][]float64) []int {
	n := len(cost)
	// Index n of the columns stands for the row that is being placed.
	row, rowPrice, columnPrice := filled(n+1, -1), make([]float64, n), make([]float64, n+1)
	for i := range n {
		row[n] = i
		least, from, done := filledFloat(n, math.Inf(1)), filled(n, n), make([]bool, n+1)
		at := n
		for row[at] >= 0 {
			done[at] = true
			r, delta, next := row[at], math.Inf(1), n
			for j := range n {
				if done[j] {
					continue
				}
				if c := cost[r][j] - rowPrice[r] - columnPrice[j]; c < least[j] {
					least[j], from[j] = c, at
				}
				if least[j] < delta {
					delta, next = least[j], j
				}
			}
			for j := range n + 1 {
				if done[j] {
					rowPrice[row[j]] += delta
					columnPrice[j] -= delta
				} else if j < n {
					least[j] -= delta
				}
			}
			at = next
		}
		for at != n {
			row[at], at = row[from[at]], from[at]
		}
	}
	return row[:n]
}
