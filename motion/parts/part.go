// Package parts follows parts of figures that were shown by hand, such as a head
// or a hand, from frame to frame.
package parts

import (
	"image"
	"math"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
)

// A Box is an upright rectangle in working pixels. The zero Box says not seen.
type Box struct{ X, Y, W, H float64 }

// Empty reports whether nothing was seen.
func (b Box) Empty() bool { return b.W <= 0 || b.H <= 0 }

func (b Box) middle() flow.Point { return flow.Point{X: b.X + b.W/2, Y: b.Y + b.H/2} }

// apart is how far the middles of two boxes lie apart, pixels.
func (b Box) apart(c Box) float64 {
	m, n := b.middle(), c.middle()
	return math.Hypot(m.X-n.X, m.Y-n.Y)
}

// moved returns b with its middle moved and its sides scaled.
func (b Box) moved(dx, dy, scale float64) Box {
	m := b.middle()
	w, h := b.W*scale, b.H*scale
	return Box{m.X + dx - w/2, m.Y + dy - h/2, w, h}
}

// pixels are those that b covers.
func (b Box) pixels() image.Rectangle {
	return image.Rect(int(math.Round(b.X)), int(math.Round(b.Y)), int(math.Round(b.X+b.W)), int(math.Round(b.Y+b.H)))
}

// A Mark is a part shown by hand: its name, and the box it fills on a frame.
type Mark struct {
	Name  string
	Frame int
	Box   Box
}

// A Stretch is the frames in which to follow parts, one after the other.
type Stretch struct {
	W, H int
	Luma [][]uint8
	Path []camera.Similarity    // the camera's way from the first frame to each
	On   func(t, x, y int) bool // whether a pixel is a figure's; nil where that is not known
}

func (s *Stretch) gray(t int) *image.Gray {
	return &image.Gray{Pix: s.Luma[t], Stride: s.W, Rect: image.Rect(0, 0, s.W, s.H)}
}

// World is how far the still world goes from frame a to frame t at a place of frame a.
func (s *Stretch) World(a, t int, x, y float64) (dx, dy float64) {
	return worldStep(s.still(a, t, camera.Identity), flow.Point{X: x, Y: y}, image.Pt(s.W, s.H))
}

// A Step is where a part is on a frame and how it got there.
type Step struct {
	Box Box // zero: not seen
	// DX and DY are its way from the frame before and Travel that of its points, with
	// the camera taken out, pixels; NaN where it was not seen on both.
	DX, DY, Travel float64
	// BodyX and BodyY are the way of all figures as a whole, with the camera taken out,
	// pixels; 0 where that is not known.
	BodyX, BodyY float64
	// LookX and LookY are how far what is inside went against its rim, pixels; NaN
	// where that is not known or not asked for.
	LookX, LookY float64
}

// Seen reports whether the part was seen.
func (s Step) Seen() bool { return !s.Box.Empty() }

// Unseen is a frame on which a part was not seen.
func Unseen() Step {
	nan := math.NaN()
	return Step{DX: nan, DY: nan, Travel: nan, LookX: nan, LookY: nan}
}
