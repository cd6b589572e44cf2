package capture

import (
	"cmp"
	"slices"
)

// A Stand is one time of one foot on the ground. The foot rolls from heel to
// toe meanwhile, but goes nowhere: see plant.
type Stand struct {
	Side     int
	From, To float64 // seconds
	Whole    [2]bool // touching down and lifting off lie within the recording
	Doubt    float64 // seconds by which both instants may be off, either way
	Plate    bool    // a force plate saw it
}

// setStands sorts the stands and plants the feet.
func (r *Recording) setStands(list []Stand) {
	r.Stands = slices.Clone(list)
	slices.SortFunc(r.Stands, func(a, b Stand) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.Side, b.Side))
	})
	for side := range 2 {
		r.plant(side)
	}
}

// samples returns the first and the last pose within a stand.
func (r *Recording) samples(s *Stand) (first, last int) {
	end := float64(len(r.Poses) - 1)
	first = int(max(0, min(s.From*r.Rate, end)))
	return first, max(first, int(min(s.To*r.Rate+0.999, end)))
}

// slowest returns the least way over the ground that a point of the sole goes
// from sample i to the next: that of a foot that rolls without slipping is none.
func (r *Recording) slowest(side, i int) Vec {
	var least Vec
	for k, j := range soles {
		d := r.Poses[i+1][j.On(side)].Sub(r.Poses[i][j.On(side)])
		if k == 0 || d.Norm() < least.Norm() {
			least = d
		}
	}
	return least.Flat()
}
