package beats

import (
	"math"
	"slices"
)

// noiseSeconds is how far either side of a step noise is looked at: coding and
// camera change over a second or so.
const noiseSeconds = 0.5

const (
	// floorMost is the highest floor, figure heights a frame, where the world moves
	// over areas: what goes twice as far as the still limit is plain to see, so
	// that a world that shows it is no noisy one but one that moves (water, a
	// crowd).
	floorMost = 2 * StillShare
	// sparseMost is the same where it shows travel in single spots only, as strong
	// coding does.
	sparseMost = 2 * floorMost
)

// Floors returns the floor of each step: what it shows itself where nothing moves,
// or the second most that the steps nearby show. Grain and coding are on more than
// one; what a single step shows, such as a shadow that falls or a picture coded
// anew, is of that step. noise holds what each step shows there, and broad how
// much of it over areas, figure heights; the first values are not looked at.
func Floors(noise, broad []float64, rate float64) []float64 {
	return floors(noise, broad, rate, func(own float64, near []float64) float64 { return max(own, secondMost(near)) })
}

// WideFloors is the same of what goes over an area, which no lone spike shows: the
// most that the steps nearby show.
func WideFloors(noise, broad []float64, rate float64) []float64 {
	return floors(noise, broad, rate, func(_ float64, near []float64) float64 { return slices.Max(near) })
}

// floors tells each step's floor by what it shows itself and what those nearby do.
func floors(noise, broad []float64, rate float64, tell func(own float64, near []float64) float64) []float64 {
	reach := max(1, int(math.Round(noiseSeconds*rate)))
	held := make([]float64, len(noise))
	for i, v := range noise {
		most := sparseMost
		if broad[i] >= StillShare {
			most = floorMost
		}
		held[i] = min(most, v)
	}
	list := make([]float64, len(noise))
	for i := 1; i < len(list); i++ {
		list[i] = tell(held[i], held[max(1, i-reach):min(len(held), i+reach+1)])
	}
	return list
}

// secondMost is the second largest of some values, the only one where there is one.
func secondMost(values []float64) float64 {
	most, second := values[0], values[0]
	for i, v := range values[1:] {
		if i == 0 {
			second = min(most, v)
		} else {
			second = max(second, min(most, v))
		}
		most = max(most, v)
	}
	return second
}

// floor is the travel that stillness can show on the step to frame i.
func (s Series) floor(i int) float64 {
	if i < len(s.Floor) {
		return s.Floor[i]
	}
	return 0
}

// limit is the travel from which the step to frame i is not still: share, or
// the noise where that is higher.
func (s Series) limit(i int, share float64) float64 { return math.Max(share, s.floor(i)) }

// changes reports whether the step to frame i shows any change to the eye.
func (s Series) changes(i int) bool {
	return s.Max[i] >= frozenShare*StillShare && s.Max[i] > s.floor(i)
}

// passes reports whether the step to frame i is of a change that soon is gone.
func (s Series) passes(i int) bool { return i < len(s.Passing) && s.Passing[i] }

// lives reports whether the step to frame i shows a change over an area: strong
// coding makes spots flicker.
func (s Series) lives(i int) bool {
	if s.Wide == nil {
		return s.changes(i)
	}
	return s.Wide[i] >= frozenShare*StillShare && s.Wide[i] > s.WideFloor[i]
}
