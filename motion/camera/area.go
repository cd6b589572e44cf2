package camera

import (
	"image"

	"holdfast/motion/picture"
)

// barSoft is how far, in pixels, the border of a bar reaches into the picture: by
// scaling, coding and the blur of smoothed luma.
const barSoft = 4

// An area is the part of the picture inside black bars, which some clips have above
// and below, or on the sides. The zero area is empty.
type area struct{ image.Rectangle }

// include takes in what p shows and reports whether the area grew.
func (a *area) include(p *picture.Picture) bool {
	r := image.Rect(0, 0, p.W, p.H)
	shrink := func(side *int, step, end int, dark func() bool) {
		for *side != end && dark() {
			*side += step
		}
	}
	row := func(y int) bool { return picture.Black(p.Smooth[y*p.W:(y+1)*p.W], 1) }
	column := func(x int) bool { return picture.Black(p.Smooth[x:], p.W) }
	shrink(&r.Min.Y, 1, r.Max.Y, func() bool { return row(r.Min.Y) })
	shrink(&r.Max.Y, -1, r.Min.Y, func() bool { return row(r.Max.Y - 1) })
	shrink(&r.Min.X, 1, r.Max.X, func() bool { return column(r.Min.X) })
	shrink(&r.Max.X, -1, r.Min.X, func() bool { return column(r.Max.X - 1) })
	if r = inside(r, p.W, p.H); r.Empty() || r.In(a.Rectangle) {
		return false
	}
	a.Rectangle = a.Union(r)
	return true
}

// inside leaves out of r what the soft borders of bars in a w by h picture reach.
func inside(r image.Rectangle, w, h int) image.Rectangle {
	soft := func(bar bool) int {
		if bar {
			return barSoft
		}
		return 0
	}
	r.Min = r.Min.Add(image.Pt(soft(r.Min.X > 0), soft(r.Min.Y > 0)))
	r.Max = r.Max.Sub(image.Pt(soft(r.Max.X < w), soft(r.Max.Y < h)))
	return r
}

// thumbOf averages the given part of a picture down; it is black where there is no
// such part.
func thumbOf(p *picture.Picture, a area) Thumb {
	var t Thumb
	shrink(t[:thumbW*thumbH], p.Y, p.W, a.Rectangle)
	half := image.Rect(a.Min.X/2, a.Min.Y/2, (a.Max.X+1)/2, (a.Max.Y+1)/2)
	shrink(t[thumbW*thumbH:2*thumbW*thumbH], p.Cb, p.CW(), half)
	shrink(t[2*thumbW*thumbH:], p.Cr, p.CW(), half)
	return t
}
