package feet

import (
	"math"
	"slices"

	"holdfast/motion/rank"
)

// A stand is a spot while it is on the ground.
type stand struct {
	*spot
	from, to int // drawings
}

// usual is the median way of a spot, figure heights a second.
func (w *walker) usual(p *spot) (x, y float64) {
	if len(p.by) == 0 {
		return 0, 0
	}
	var vx, vy []float64
	for k, b := range p.by {
		x, y := w.speed(b, p.first+k)
		vx, vy = append(vx, x), append(vy, y)
	}
	return median(vx), median(vy)
}

// settle cuts off a spot's coming and going, which differ from the given way.
func (w *walker) settle(p *spot, vx, vy float64) stand {
	steady := func(k int) bool {
		x, y := w.speed(p.by[k], p.first+k)
		return math.Hypot(x-vx, y-vy) <= steadyWay
	}
	a, b := 0, len(p.by)
	for a < b && !steady(a) {
		a++
	}
	for b > a && !steady(b-1) {
		b--
	}
	return stand{p, p.first + a, p.first + b}
}

// place is where a stand is in drawing i, or in the nearest one in which it stands.
func (st *stand) place(i int) place { return st.at[min(max(i, st.from), st.to)-st.first] }

// shared is in how many drawings both stand; less than none says how far apart
// they are.
func (st *stand) shared(o *stand) int { return min(st.to, o.to) - max(st.from, o.from) + 1 }

func median(v []float64) float64 {
	return rank.Median(slices.Clone(v))
}
