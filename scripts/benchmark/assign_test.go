package main

import (
	"math"
	"slices"
	"testing"
)

func TestAssign(t *testing.T) {
	no := math.NaN()
	tests := []struct {
		name   string
		values [][]float64
		want   []int
	}{
		{"nothing true", nil, nil},
		{"nothing found", [][]float64{{}, {}}, []int{-1, -1}},
		{"the better of two", [][]float64{{0.6, 0.9}}, []int{1}},
		{"side by side", [][]float64{{0.9, 0.8}, {0.8, 0.9}}, []int{0, 1}},
		{"crossed", [][]float64{{0.7, 0.9}, {0.9, 0.8}}, []int{1, 0}},
		// Two pairs that just fit count more than one that fits well.
		{"more pairs", [][]float64{{1, 0}, {0, no}}, []int{1, 0}},
		{"one too many", [][]float64{{0.2}, {0.4}, {0.3}}, []int{-1, 0, -1}},
		{"none may be", [][]float64{{no, no}, {no, no}}, []int{-1, -1}},
	}
	for _, c := range tests {
		m := 0
		if len(c.values) > 0 {
			m = len(c.values[0])
		}
		got := assign(len(c.values), m, func(i, j int) float64 { return c.values[i][j] })
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// All orders of five by five, tried one by one.
func TestAssignIsBest(t *testing.T) {
	for seed := range 50 {
		values := make([][]float64, 5)
		for i := range values {
			for j := range 5 {
				v := float64((seed*7919+i*104729+j*1299709+i*j*611953)%1000) / 1000
				if v < 0.3 {
					v = math.NaN()
				}
				values[i] = append(values[i], v)
			}
		}
		worth := func(partner []int) (sum float64) {
			for i, j := range partner {
				if j >= 0 && !math.IsNaN(values[i][j]) {
					sum += 10 + values[i][j]
				}
			}
			return sum
		}
		best := 0.0
		orders([]int{0, 1, 2, 3, 4}, 0, func(p []int) { best = math.Max(best, worth(p)) })
		got := assign(5, 5, func(i, j int) float64 { return values[i][j] })
		if !near(worth(got), best, 1e-9) {
			t.Fatalf("seed %d: worth %g, best %g", seed, worth(got), best)
		}
	}
}

func orders(p []int, k int, do func([]int)) {
	if k == len(p) {
		do(p)
		return
	}
	for i := k; i < len(p); i++ {
		p[k], p[i] = p[i], p[k]
		orders(p, k+1, do)
		p[k], p[i] = p[i], p[k]
	}
}
