package scene

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// unitLevel is how many steps of a canvas make one 8-bit level: grain, fades
// and sub-frame sampling need finer steps than the picture shows.
const unitLevel = 128

// A canvas is a picture in the making, 4:2:0, in steps of 1/unitLevel level.
type canvas struct {
	w, h, cw, ch int
	y, cb, cr    []uint16
}

func newCanvas(w, h int) *canvas {
	c := &canvas{w: w, h: h, cw: (w + 1) / 2, ch: (h + 1) / 2}
	c.y = make([]uint16, w*h)
	c.cb, c.cr = make([]uint16, c.cw*c.ch), make([]uint16, c.cw*c.ch)
	return c
}

func (c *canvas) copyFrom(o *canvas) {
	copy(c.y, o.y)
	copy(c.cb, o.cb)
	copy(c.cr, o.cr)
}

func (c *canvas) clear(t tone) {
	fillWith(c.y, level(t.y))
	fillWith(c.cb, level(t.cb))
	fillWith(c.cr, level(t.cr))
}

func fillWith(p []uint16, v uint16) {
	for i := range p {
		p[i] = v
	}
}

func level(v float64) uint16 {
	return uint16(math.Max(0, math.Min(255*unitLevel, math.Round(v*unitLevel))))
}

// mixIn replaces c by (1-u) of itself and u of o.
func (c *canvas) mixIn(o *canvas, u float64) {
	k := int32(math.Round(u * 1024))
	for _, p := range [][2][]uint16{{c.y, o.y}, {c.cb, o.cb}, {c.cr, o.cr}} {
		for i, v := range p[0] {
			p[0][i] = uint16(int32(v) + (int32(p[1][i])-int32(v))*k>>10)
		}
	}
}

// A paint says how the inside of a polygon looks. Shade adds levels from left
// to right of the shape's own box, half of it taken away at the left; Weave
// adds a fixed texture of that many levels, laid down in the shape's own
// coordinates so that it goes where the shape goes. Veil is the share of what
// lies below that shows through.
type paint struct {
	tone  tone
	shade float64
	weave float64
	veil  float64
}

// bandRows is how many rows are rasterised at once, to bound the mask.
const bandRows = 256

// A brush rasterises polygons onto canvases; it keeps its memory.
type brush struct {
	raster vector.Rasterizer
	mask   image.Alpha
	seen   []Point
}

// fill paints the polygon outline, given in own coordinates and mapped to the
// canvas by m. The own box gives the shade its ends.
func (b *brush) fill(c *canvas, m affine, outline []Point, own box, p paint) {
	b.seen = b.seen[:0]
	area := nothing
	for _, q := range outline {
		q = m.at(q)
		b.seen = append(b.seen, q)
		area = area.with(q)
	}
	// Even corners, so that a sample of chroma has its four of luma.
	x0, y0 := max(0, int(math.Floor(area.x0)))&^1, max(0, int(math.Floor(area.y0)))&^1
	x1, y1 := min(c.w, int(math.Ceil(area.x1))+1), min(c.h, int(math.Ceil(area.y1))+1)
	if !(x0 < x1) || area.x1 < 0 {
		return
	}
	f := newFilling(m, own, p)
	for y := y0; y < y1; y += bandRows {
		r := image.Rect(x0, y, x1, min(y1, y+bandRows))
		b.cover(r)
		c.lay(&b.mask, r, &f)
	}
}

// cover sets the mask to how much of each pixel of r the polygon covers.
func (b *brush) cover(r image.Rectangle) {
	w, h := r.Dx(), r.Dy()
	if n := w * h; cap(b.mask.Pix) < n {
		b.mask.Pix = make([]uint8, n)
	}
	b.mask.Pix, b.mask.Stride, b.mask.Rect = b.mask.Pix[:w*h], w, image.Rect(0, 0, w, h)
	b.raster.Reset(w, h)
	for i, q := range b.seen {
		x, y := float32(q.X-float64(r.Min.X)), float32(q.Y-float64(r.Min.Y))
		if i == 0 {
			b.raster.MoveTo(x, y)
		} else {
			b.raster.LineTo(x, y)
		}
	}
	b.raster.ClosePath()
	b.raster.DrawOp = draw.Src // what is not covered becomes 0
	b.raster.Draw(&b.mask, b.mask.Rect, image.Opaque, image.Point{})
}
