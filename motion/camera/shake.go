package camera

import (
	"math"

	"holdfast/motion/rank"
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
	// shakeZoom is the same against what the scale is off its smooth way, as seen at
	// the side of the picture: hands do not zoom, so that is what the figures
	// before it make the measured way waver by. Of a hand it is a tenth.
	shakeZoom = 3.0
	// restSteps is how many steps in a row a camera must be quite still for it to
	// have stood there and not been shown twice or thrice, and restMost the share of
	// a shot's steps on which a camera held by hand may seem to.
	restSteps = 3
	restMost  = 0.2
)

// shake returns how far a camera typically lies off its smooth way, in pixels,
// across or down, whichever is more. It is 0 where that is no shake, the shot
// too short to tell, or the camera seen to stand. Frames on which the camera is where it was do not count: on
// twos, or where pictures repeat, the smoothest drive goes in jerks.
func (t *way) shake(w int, rate float64) float64 {
	half := max(2, int(math.Round(shakeSeconds*rate/2)))
	moved := t.moved()
	if 2*len(moved.x) < 5*half || t.rests() > restMost {
		return 0
	}
	floor := math.Max(shakeFloor*float64(w), shakeZoom*float64(w)/2*unevenness(moved.zoom, half))
	return math.Max(shakeAlong(moved.x, half, floor), shakeAlong(moved.y, half, floor))
}

// rests is the share of the steps on which the camera stands.
func (t *way) rests() float64 {
	stood, run := 0, 0
	for i := 1; i < len(t.x); i++ {
		if t.x[i] != t.x[i-1] || t.y[i] != t.y[i-1] {
			run = 0
			continue
		}
		if run++; run == restSteps {
			stood += run
		} else if run > restSteps {
			stood++
		}
	}
	return float64(stood) / float64(len(t.x))
}

// moved returns where the camera is on the frames it has moved to.
func (t *way) moved() *way {
	m := &way{}
	for i := range t.x {
		if i == 0 || t.x[i] != t.x[i-1] || t.y[i] != t.y[i-1] {
			m.x, m.y, m.zoom = append(m.x, t.x[i]), append(m.y, t.y[i]), append(m.zoom, t.zoom[i])
		}
	}
	return m
}

// shakeAlong is shake in one direction.
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

// median leaves v in another order; it is 0 for none.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	return rank.Median(v)
}
