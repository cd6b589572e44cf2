package draw

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"holdfast/sheet"
)

// arcSeconds is how far an arc reaches before and after a frame at most: of a dance
// without a hold all would be one tangle.
const arcSeconds = 2

// amber is the colour of arcs: no other mark has it, and it is light on a dark rim.
var amber = color.RGBA{255, 200, 60, 255}

// Tracing draws the arcs of points, and returns o: the way of each through the beat that
// a frame is in, from pose to pose, with a dot a frame, filled where it has been.
func (o *Overlay) Tracing(points []sheet.Point) *Overlay {
	o.points = points
	return o
}

func (o *Overlay) drawArcs(p pen, n int) {
	for _, point := range o.points {
		if n >= point.Start && n <= point.End() {
			o.drawArc(p, point, n)
		}
	}
}

// drawArc draws an arc as it lies in the picture of a frame.
func (o *Overlay) drawArc(p pen, point sheet.Point, n int) {
	reach := int(math.Round(arcSeconds * o.sheet.Clip.FPS.Float()))
	from, to := n-reach, n+reach
	b := o.beats[n-o.sheet.Clip.FirstFrame]
	if b != nil {
		from, to = max(from, b.Start-1), min(to, b.End+1)
	}
	start, at := o.sheet.Arc(point, from, to, n)
	for _, l := range []struct {
		thick float64
		with  color.RGBA
	}{{3.5, ink}, {1.5, amber}} {
		o.drawWay(p, at, l.thick*o.unit, l.with)
	}
	for i, spot := range at {
		if spot == nil {
			continue
		}
		o.drawDot(p, *spot, start+i, n)
		if b != nil && b.Peak != nil && start+i == *b.Peak {
			o.lines(p, image.Pt(int(spot[0]*o.sx+5*o.unit), int(spot[1]*o.sy-5*o.unit)), true,
				[]style{o.style(true, 10)}, []string{fmt.Sprint(start + i)})
		}
	}
	if here := n - start; here >= 0 && here < len(at) && at[here] != nil {
		o.drawDot(p, *at[here], n, n) // over its neighbours
	}
}

// drawWay joins the spots of frames that follow each other.
func (o *Overlay) drawWay(p pen, at []*[2]float64, thick float64, with color.RGBA) {
	for i := 1; i < len(at); i++ {
		if a, b := at[i-1], at[i]; a != nil && b != nil {
			p.stroke(a[0]*o.sx, a[1]*o.sy, b[0]*o.sx, b[1]*o.sy, thick, with)
		}
	}
}

// drawDot draws the spot of a frame as seen from frame n: full where it has been, hollow
// where it goes, large where it is.
func (o *Overlay) drawDot(p pen, spot [2]float64, frame, n int) {
	x, y := spot[0]*o.sx, spot[1]*o.sy
	dot := func(size float64, with color.RGBA) { p.stroke(x, y, x, y, size*o.unit, with) }
	switch {
	case frame == n:
		dot(9, ink)
		dot(6.5, white)
	case frame < n:
		dot(5, ink)
		dot(3.5, amber)
	default:
		dot(5, amber)
		dot(2.5, ink)
	}
}
