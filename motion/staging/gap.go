package staging

import "math"

// A gap is how far one figure is to the right of another, frame by frame, heights.
type gap struct {
	at   []float64
	rate float64 // frames a second
}

// runs are the stretches over which the gap shrinks or grows, each from the last frame
// before it to the last of it, as indices.
func (g gap) runs() [][2]int {
	var list [][2]int
	ways := g.ways()
	for i := 0; i < len(ways); {
		if ways[i] == 0 {
			i++
			continue
		}
		last := i // the last frame that goes that way
		k := i
		for ; k < len(ways) && (ways[k] == ways[i] || ways[k] == 0 && float64(k-last) < restSeconds*g.rate); k++ {
			if ways[k] == ways[i] {
				last = k
			}
		}
		list = append(list, g.widen(i, last, ways))
		i = last + 1
	}
	return list
}

// ways says of each frame whether the gap shrinks there (-1), grows (1) or neither.
func (g gap) ways() []int {
	ways := make([]int, len(g.at))
	for i := range ways {
		slope := g.slope(i) * math.Copysign(1, g.at[i])
		switch {
		case slope >= pace:
			ways[i] = 1
		case slope <= -pace:
			ways[i] = -1
		}
	}
	return ways
}

// half is half the window in which a pace is taken, frames.
func (g gap) half() int { return max(1, int(math.Round(windowSeconds*g.rate/2))) }

// slope is the pace of the gap around a frame, heights a second: that of the line that
// fits best.
func (g gap) slope(i int) float64 {
	from, to := max(0, i-g.half()), min(len(g.at)-1, i+g.half())
	n, middle := float64(to-from+1), float64(from+to)/2
	sum, square := 0.0, 0.0
	for k := from; k <= to; k++ {
		d := float64(k) - middle
		sum, square = sum+d*g.at[k], square+d*d
	}
	if n < 2 {
		return 0
	}
	return sum / square * g.rate
}

// widen takes the rest before and after a stretch into it, as far as the window reaches
// in which its pace is taken.
func (g gap) widen(from, to int, ways []int) [2]int {
	for k := 0; k < g.half() && from > 0 && ways[from-1] == 0; k++ {
		from--
	}
	for k := 0; k < g.half() && to+1 < len(ways) && ways[to+1] == 0; k++ {
		to++
	}
	return [2]int{from, to}
}

// seen narrows a stretch down to where the eye sees the gap change.
func (g gap) seen(run [2]int) [2]int {
	from, to := run[0], run[1]
	a, b := from, to
	for a < to && math.Abs(g.at[a]-g.at[from]) < stir {
		a++
	}
	for b > a && math.Abs(g.at[b]-g.at[to]) < stir {
		b--
	}
	return [2]int{max(from, a-1), min(to, b+1)}
}
