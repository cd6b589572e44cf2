package capture

import "math"

// The rule by which a foot stands where no plates say so: heel, ball or toe
// goes slower than standSpeed while lower than standLevel over its own lowest
// level. Published code has 0.15 to 0.9 m/s and 4 to 8 cm; these values come
// closest to the force plates of the two walks that tests compare.
const (
	standSpeed = 0.4  // metres a second
	standLevel = 0.05 // metres
)

// ruleDoubt is by how much the loosest published speed, 0.9 m/s, has a foot
// stand earlier and later.
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
		list = append(list, r.standsBy(side, standSpeed, standLevel)...)
	}
	r.setStands(list)
	r.Rule = "heel, ball or toe slower than 0.4 m/s and within 5 cm of its lowest level"
	r.Doubt = ruleDoubt + 0.5/r.Rate
}

// standsBy returns the stands of one foot under the given speed and level.
func (r *Recording) standsBy(side int, speed, level float64) []Stand {
	down := make([]bool, len(r.Poses))
	for _, j := range soles {
		lowest := r.lowest(j.On(side))
		for i := range r.Poses {
			down[i] = down[i] || r.Poses[i][j.On(side)].Y < lowest+level && r.speed(j.On(side), i) < speed
		}
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
			Whole: [2]bool{from > 0, i < len(down)-1}})
	}
	return list
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
