package main

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// within is the window rule for instants: window included.
func within(truth, found []int, window int) func(i, j int) bool {
	return func(i, j int) bool { return abs(truth[i]-found[j]) <= window }
}

func TestMatch(t *testing.T) {
	tests := []struct {
		name         string
		truth, found []int
		want         []int
	}{
		{"nothing", nil, nil, nil},
		{"nothing found", []int{3}, nil, []int{-1}},
		{"window is included", []int{10}, []int{11}, []int{0}},
		{"just outside", []int{10}, []int{12}, []int{-1}},
		{"one found serves one truth", []int{10, 11}, []int{10}, []int{0, -1}},
		// The first truth must leave the found one it reaches first to the second.
		{"moves over for another", []int{10, 9}, []int{10, 11}, []int{1, 0}},
		{"a chain of three", []int{12, 11, 10}, []int{11, 12, 13}, []int{2, 1, 0}},
	}
	for _, c := range tests {
		t.Run(c.name, func(t *testing.T) {
			got := match(len(c.truth), len(c.found), within(c.truth, c.found, 1))
			if !slices.Equal(got, c.want) {
				t.Errorf("match(%v, %v) = %v, want %v", c.truth, c.found, got, c.want)
			}
		})
	}
}

// TestMatchIsLargest compares with trying every assignment.
func TestMatchIsLargest(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		n, m := rng.IntN(6), rng.IntN(6)
		edge := make([]bool, n*m)
		for k := range edge {
			edge[k] = rng.IntN(3) == 0
		}
		fits := func(i, j int) bool { return edge[i*m+j] }
		partner := match(n, m, fits)
		got, seen := 0, map[int]bool{}
		for i, j := range partner {
			if j < 0 {
				continue
			}
			if seen[j] || !fits(i, j) {
				t.Fatalf("pair %d-%d is taken twice or may not be: %v", i, j, partner)
			}
			seen[j] = true
			got++
		}
		if want := largest(n, m, 0, 0, fits); got != want {
			t.Fatalf("%d pairs of %d possible in %v", got, want, edge)
		}
		if rest := unmatched(partner, m); len(rest) != m-got {
			t.Fatalf("%d of %d found left over after %d pairs", len(rest), m, got)
		}
	}
}

// largest tries every assignment of truths from i on; used has a bit for each
// found thing that is taken.
func largest(n, m, i, used int, fits func(i, j int) bool) int {
	if i == n {
		return 0
	}
	best := largest(n, m, i+1, used, fits)
	for j := range m {
		if used>>j&1 == 0 && fits(i, j) {
			best = max(best, 1+largest(n, m, i+1, used|1<<j, fits))
		}
	}
	return best
}
