package figure

import (
	"math"

	"holdfast/motion/camera"
)

// maxCanvas is the most that the plate of a moving camera may grow to, in
// picture areas. The samples of such a plate take about 60 MB at the usual
// working size.
const maxCanvas = 8

// An extent is what a camera sees of the world on its way, from the middle of
// the first frame.
type extent struct {
	mx, my         float64 // half the size of a frame
	x0, y0, x1, y1 float64
}

func newExtent(w, h int) extent {
	m := middle(w, h)
	return extent{m[0], m[1], -m[0], -m[1], m[0], m[1]}
}

// add takes in what a frame sees that s leads to from the first one.
func (e *extent) add(s camera.Similarity) {
	inv := s.Inverse()
	for _, c := range [4][2]float64{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
		x, y := inv.Apply(c[0]*e.mx, c[1]*e.my)
		e.x0, e.y0, e.x1, e.y1 = math.Min(e.x0, x), math.Min(e.y0, y), math.Max(e.x1, x), math.Max(e.y1, y)
	}
}

// areas is the size of the extent in frames.
func (e *extent) areas() float64 {
	return (e.x1 - e.x0 + 1) * (e.y1 - e.y0 + 1) / ((2*e.mx + 1) * (2*e.my + 1))
}

// Fits returns how many of the first frames of a stretch of w by h working
// pixels go onto one plate: all, unless the camera goes too far. path is as in
// NewPlate; the answer is at least 1 where it is not empty.
func Fits(w, h int, path []camera.Similarity) int {
	e := newExtent(w, h)
	for n, s := range path {
		e.add(s)
		// Not "over": an extent that is no number does not fit either.
		if n > 0 && !(e.areas() <= maxCanvas) {
			return n
		}
	}
	return len(path)
}
