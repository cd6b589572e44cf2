package feet

import (
	"math"
	"slices"
)

// rollSeconds is how long, at either end of a contact, a sole rolls over heel or
// toe (common practice, no source).
const rollSeconds = 0.15

// slip adds up the ways of the steadiest part of a contact from drawing to
// drawing, pixels. While a sole rolls its ends move without slipping: then, and
// where something goes farther than usual or against it, the usual way counts.
func (w *walker) slip(f foot, from, to int, usualX, usualY float64) float64 {
	ways := make([]float64, 0, to-from)
	for i := from; i < to; i++ {
		ways = append(ways, w.steadiest(f, i, usualX, usualY))
	}
	usual, roll := shorth(ways), int(math.Round(rollSeconds*w.s.Rate))
	sum := 0.0
	for k, v := range ways {
		if k < roll || k >= len(ways)-roll || v*usual < 0 || math.Abs(v) > math.Abs(usual) {
			v = usual
		}
		sum += v * w.span(from+k) * w.tall(from+k)
	}
	return sum
}

// shorth is the mean of the half of some values that lies closest together: the
// usual one, however the others stray to one side. D. Andrews and others, "Robust
// Estimates of Location", 1972 (from memory).
func shorth(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Clone(v)
	slices.Sort(v)
	n := len(v)/2 + 1
	best := 0
	for i := 0; i+n <= len(v); i++ {
		if v[i+n-1]-v[i] < v[best+n-1]-v[best] {
			best = i
		}
	}
	sum := 0.0
	for _, x := range v[best : best+n] {
		sum += x
	}
	return sum / float64(n)
}

// steadiest is the way across out of drawing i, figure heights a second, of that
// stand of a foot that differs least from the usual way.
func (w *walker) steadiest(f foot, i int, usualX, usualY float64) float64 {
	best, x := math.Inf(1), usualX
	for _, st := range f {
		if i < st.from || i >= st.to {
			continue
		}
		u, v := w.speed(st.by[i-st.first], i)
		if d := math.Hypot(u-usualX, v-usualY); d < best {
			best, x = d, u
		}
	}
	return x
}
