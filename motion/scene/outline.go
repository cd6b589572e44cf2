package scene

import "math"

// An Outline is what a figure covers of a picture, pixel by pixel, from its geometry.
type Outline struct {
	w, h int
	on   []bool
}

// Outline returns that of a figure on a frame; false where the shot has none.
func (sc *Scene) Outline(figure string, frame int) (Outline, bool) {
	cover, ok := sc.Cover(figure, frame)
	if !ok {
		return Outline{}, false
	}
	o := Outline{sc.Width, sc.Height, make([]bool, sc.Width*sc.Height)}
	for i := range o.on {
		o.on[i] = cover(Point{X: float64(i%o.w) + 0.5, Y: float64(i/o.w) + 0.5})
	}
	return o, true
}

// Lean is the direction of the outline's principal axis, degrees to the right from
// upright: that of the larger eigenvalue of its second moments (M.-K. Hu, "Visual
// Pattern Recognition by Moment Invariants", 1962).
func (o Outline) Lean() float64 {
	var n, sx, sy, sxx, syy, sxy float64
	for i, on := range o.on {
		if x, y := float64(i%o.w), float64(i/o.w); on {
			n, sx, sy, sxx, syy, sxy = n+1, sx+x, sy+y, sxx+x*x, syy+y*y, sxy+x*y
		}
	}
	a, b, c := sxx/n-sx*sx/n/n, syy/n-sy*sy/n/n, sxy/n-sx*sy/n/n
	x, y := c, (b-a)/2+math.Sqrt((a-b)*(a-b)/4+c*c)
	if y > 0 {
		x, y = -x, -y
	}
	return math.Atan2(x, -y) * 180 / math.Pi
}

// Size is how wide and how high the outline is, pixels.
func (o Outline) Size() (width, height float64) {
	x0, y0, x1, y1 := o.w, o.h, 0, 0
	for i, on := range o.on {
		if on {
			x0, y0, x1, y1 = min(x0, i%o.w), min(y0, i/o.w), max(x1, i%o.w+1), max(y1, i/o.w+1)
		}
	}
	return float64(x1 - x0), float64(y1 - y0)
}

// Contrast is one minus intersection over union of two outlines of pictures of one size,
// laid on each other as well as a shift of up to so many pixels, even ones, can.
func (o Outline) Contrast(b Outline, reach int) float64 {
	best := 0.0
	for dy := -reach; dy <= reach; dy += 2 {
		for dx := -reach; dx <= reach; dx += 2 {
			best = math.Max(best, o.overlap(b, dx, dy))
		}
	}
	return 1 - best
}

// overlap is the area that both outlines cover over that which either does, o moved.
func (o Outline) overlap(b Outline, dx, dy int) float64 {
	both, any := 0, 0
	for i, on := range o.on {
		x, y := i%o.w+dx, i/o.w+dy
		other := x >= 0 && y >= 0 && x < b.w && y < b.h && b.on[y*b.w+x]
		if on && other {
			both++
		}
		if on || other {
			any++
		}
	}
	return float64(both) / float64(any)
}
