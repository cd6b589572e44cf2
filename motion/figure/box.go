package figure

import "math"

// A Method says how a figure was told from its background.
type Method string

// The methods, best first.
const (
	ByPlate  Method = "plate"  // differs from the background plate
	ByHand   Method = "hand"   // shown by hand, and followed from there
	ByMotion Method = "motion" // moves against the background; no plate could be made
)

// A Box is the smallest upright rectangle around a figure in one frame, in
// working pixels; X1 and Y1 lie outside. The zero Box says not seen.
type Box struct {
	X0, Y0, X1, Y1 int
}

// Empty reports whether nothing was seen.
func (b Box) Empty() bool { return b.X1 <= b.X0 || b.Y1 <= b.Y0 }

// W returns the width of b, pixels.
func (b Box) W() int { return b.X1 - b.X0 }

// H returns the height of b, pixels.
func (b Box) H() int { return b.Y1 - b.Y0 }

// Union returns the smallest box around both.
func (b Box) Union(c Box) Box {
	if b.Empty() {
		return c
	}
	if c.Empty() {
		return b
	}
	return Box{min(b.X0, c.X0), min(b.Y0, c.Y0), max(b.X1, c.X1), max(b.Y1, c.Y1)}
}

// Overlap returns the area that both cover, square pixels.
func (b Box) Overlap(c Box) int {
	w := min(b.X1, c.X1) - max(b.X0, c.X0)
	h := min(b.Y1, c.Y1) - max(b.Y0, c.Y0)
	return max(0, w) * max(0, h)
}

// near reports whether a pixel lies in b or right beside it.
func (b Box) near(x, y int) bool {
	return x >= b.X0-1 && x < b.X1+1 && y >= b.Y0-1 && y < b.Y1+1
}

// Grow returns b with n pixels added on every side.
func (b Box) Grow(n int) Box { return Box{b.X0 - n, b.Y0 - n, b.X1 + n, b.Y1 + n} }

// apart is how far the middles of two boxes lie apart, pixels.
func (b Box) apart(c Box) float64 {
	return math.Hypot(float64(b.X0+b.X1-c.X0-c.X1), float64(b.Y0+b.Y1-c.Y0-c.Y1)) / 2
}

// clip returns what of b lies in c.
func (b Box) clip(c Box) Box {
	return Box{max(b.X0, c.X0), max(b.Y0, c.Y0), min(b.X1, c.X1), min(b.Y1, c.Y1)}
}

func (b Box) scale(n int) Box { return Box{b.X0 * n, b.Y0 * n, b.X1 * n, b.Y1 * n} }
