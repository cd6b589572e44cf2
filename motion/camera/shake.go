package camera

import (
	"math"
	"slices"
)

const (
	// shakeSeconds is the window within which a camera that is driven goes an even
	// way: dollies and heads take longer to start, stop and turn, while hands and
	// steps shake it at 1 to 4 Hz (common practice, no source).
	shakeSeconds = 1.0
	// shakeFloor is the shake, as a share of the picture's width, from which a
	// camera is held by hand: an eighth of a pixel of the working picture, what
	// measuring leaves of a camera on a stand being half of that at most.
	shakeFloor = 0.0002
	// shakeSpeed is the same as a share of the way made from one frame to the next:
	// a camera that rushes about is driven less evenly.
	shakeSpeed = 0.4
)

// shakeOf returns how far a camera typically lies off its smooth way, in pixels,
// across or down, whichever is more. It is 0 where that is no shake or the shot
// too short to tell. x and y hold where the camera is on each frame. Frames on
// which it is where it was do not count: on twos, or where pictures repeat, the
// smoothest drive goes in jerks.
func shakeOf(x, y []float64, w int, rate float64) float64 {
	half := max(2, int(math.Round(shakeSeconds*rate/2)))
	x, y = moving(x, y)
	if 2*len(x) < 5*half {
		return 0
	}
	floor := shakeFloor * float64(w)
	return math.Max(shakeAlong(x, half, floor), shakeAlong(y, half, floor))
}

// moving returns where the camera is on the frames it has moved to.
func moving(x, y []float64) (mx, my []float64) {
	for i := range x {
		if i == 0 || x[i] != x[i-1] || y[i] != y[i-1] {
			mx, my = append(mx, x[i]), append(my, y[i])
		}
	}
	return mx, my
}

// shakeAlong is shakeOf in one direction.
func shakeAlong(way []float64, half int, floor float64) float64 {
	var speeds []float64
	for i := 1; i < len(way); i++ {
		speeds = append(speeds, math.Abs(way[i]-way[i-1]))
	}
	shake := unevenness(way, half)
	if shake < math.Max(floor, shakeSpeed*median(speeds)) {
		return 0
	}
	return shake
}

// unevenness is the median distance between a way and the same smoothed: each
// frame of the smooth way lies on the parabola through half frames
// before it and as many after, fitted by least squares. A. Savitzky, M. Golay,
// "Smoothing and Differentiation of Data", 1964.
func unevenness(way []float64, half int) float64 {
	weights := parabola(half)
	var off []float64
	for i := half; i+half < len(way); i++ {
		smooth := 0.0
		for k, c := range weights {
			smooth += c * way[i-half+k]
		}
		off = append(off, math.Abs(way[i]-smooth))
	}
	return median(off)
}

// parabola returns the weights of 2*half+1 values in the middle of the parabola
// fitted to them.
func parabola(half int) []float64 {
	m := float64(half)
	var c []float64
	for k := -m; k <= m; k++ {
		c = append(c, 3*(3*m*m+3*m-1-5*k*k)/((2*m-1)*(2*m+1)*(2*m+3)))
	}
	return c
}

// median sorts v; it is 0 for none.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}
