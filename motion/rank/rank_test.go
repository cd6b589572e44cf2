package rank

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// Against sorting, over lists with many and with few like values, in order,
// backwards and by lot.
func TestKthIsWhatSortingGives(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{1, 2, 3, 12, 13, 14, 100, 1000} {
		for _, kinds := range []int{1, 2, 7, 1 << 30} {
			v := make([]float64, n)
			for i := range v {
				v[i] = float64(r.IntN(kinds))
			}
			sorted := slices.Sorted(slices.Values(v))
			backwards := slices.Clone(sorted)
			slices.Reverse(backwards)
			for _, order := range [][]float64{v, sorted, backwards} {
				for _, k := range []int{0, n / 3, n / 2, n - 1} {
					kept := slices.Clone(order)
					if got := Kth(kept, k); got != sorted[k] {
						t.Fatalf("%d of %d values of %d kinds: %g, want %g", k, n, kinds, got, sorted[k])
					}
					before, behind := kept[:k], kept[k+1:]
					if k > 0 && slices.Max(before) > kept[k] || k < n-1 && slices.Min(behind) < kept[k] {
						t.Fatalf("%d of %d values of %d kinds is not between those before and behind it", k, n, kinds)
					}
				}
			}
		}
	}
}

func TestKthOutside(t *testing.T) {
	for _, k := range []int{-1, 3} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("index %d of 3 values: no panic", k)
				}
			}()
			Kth([]int{1, 2, 3}, k)
		}()
	}
}

func BenchmarkMedian(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 6))
	values := make([]float64, 6000) // as many as a camera's fit compares
	for i := range values {
		values[i] = r.ExpFloat64()
	}
	v := make([]float64, len(values))
	for _, way := range []struct {
		name string
		find func()
	}{
		{"Kth", func() { Kth(v, len(v)/2) }},
		{"Sort", func() { slices.Sort(v) }},
	} {
		b.Run(way.name, func(b *testing.B) {
			for b.Loop() {
				copy(v, values)
				way.find()
			}
		})
	}
}
