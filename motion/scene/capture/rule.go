package capture

import (
	"fmt"
	"math"
)

// The rule by which a foot stands where no plates say so: heel, ball or toe
// goes slower than touchSpeed while lower than touchLevel over its own lowest
// level; it then stands until none of them is slower than liftSpeed and lower
// than liftLevel. Published code has 0.15 to 0.9 m/s and 4 to 8 cm; two limits
// instead of one keep a foot that creeps, pivots or carries a runner one stand,
// and come within 29 ms of the force plates of the two walks that tests compare.
const (
	touchSpeed, liftSpeed = 0.5, 0.9   // metres a second
	touchLevel, liftLevel = 0.05, 0.08 // metres
)

// ruleDoubt is by how much the rule is off against force plates, and by how
// much the loosest published speed has a foot stand earlier and later.
const ruleDoubt = 0.03 // seconds

// Speeds are taken over speedSpan, longer than the jitter of markers; stands
// and gaps shorter than shortestStand are none: no foot is so quick.
const (
	speedSpan     = 1.0 / 30 // seconds
	shortestStand = 0.07     // seconds
)

// stand finds the stands of both feet by the rule.
func (r *Recording) stand() {
	var list []Stand
	for side := range 2 {
		list = append(list, r.standsByRule(side)...)
	}
	r.setStands(list)
	r.Rule = fmt.Sprintf("heel, ball or toe slower than %g m/s within %g m of its lowest level, until all are faster than %g m/s or over %g m",
		touchSpeed, touchLevel, liftSpeed, liftLevel)
}

// standsByRule returns the stands of one foot.
func (r *Recording) standsByRule(side int) []Stand {
	touches := r.anyPoint(side, touchSpeed, touchLevel)
	stays := r.anyPoint(side, liftSpeed, liftLevel)
	down := touches
	for i := 1; i < len(down); i++ {
		down[i] = down[i] || down[i-1] && stays[i]
	}
	short := int(math.Round(shortestStand * r.Rate))
	bridge(down, true, short)
	bridge(down, false, short)
	var list []Stand
	for i := 0; i < len(down); i++ {
		if !down[i] {
			continue
		}
		from := i
		for i+1 < len(down) && down[i+1] {
			i++
		}
		list = append(list, Stand{Side: side, From: float64(from) / r.Rate, To: float64(i) / r.Rate,
			Whole: [2]bool{from > 0, i < len(down)-1}, Doubt: ruleDoubt + 0.5/r.Rate})
	}
	return list
}

// anyPoint says of each pose whether any point of a sole is slower than speed
// and lower than level over its own lowest level.
func (r *Recording) anyPoint(side int, speed, level float64) []bool {
	is := make([]bool, len(r.Poses))
	for _, j := range soles {
		lowest := r.lowest(j.On(side))
		for i := range r.Poses {
			is[i] = is[i] || r.Poses[i][j.On(side)].Y < lowest+level && r.speed(j.On(side), i) < speed
		}
	}
	return is
}

// lowest returns the lowest level of a point, stray samples left out.
func (r *Recording) lowest(j Joint) float64 {
	heights := make([]float64, len(r.Poses))
	for i := range r.Poses {
		heights[i] = r.Poses[i][j].Y
	}
	return quantile(heights, levelShare)
}

// speed returns the speed of a point about sample i, metres a second: over
// speedSpan, or over the slower of the intervals on both sides where samples lie
// as far apart as that.
func (r *Recording) speed(j Joint, i int) float64 {
	half := int(speedSpan * r.Rate / 2)
	if half < 1 {
		return min(r.speedOver(j, i-1, i), r.speedOver(j, i, i+1))
	}
	return r.speedOver(j, i-half, i+half)
}

// speedOver is the mean speed from sample a to b, so far as there are such.
func (r *Recording) speedOver(j Joint, a, b int) float64 {
	a, b = max(0, a), min(len(r.Poses)-1, b)
	if a >= b {
		return math.Inf(1)
	}
	return r.Poses[b][j].Sub(r.Poses[a][j]).Norm() * r.Rate / float64(b-a)
}

// bridge turns runs of !value that are at most n long, and lie between two of
// value, into value.
func bridge(list []bool, value bool, n int) {
	last := -1 // index of the last value
	for i, v := range list {
		if v != value {
			continue
		}
		if gap := i - last - 1; last >= 0 && gap > 0 && gap <= n {
			for k := last + 1; k < i; k++ {
				list[k] = value
			}
		}
		last = i
	}
}
