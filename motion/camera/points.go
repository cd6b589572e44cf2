package camera

import (
	"math"

	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

// cellSide is the side, in pixels, of the cells that give one point each, so
// that a small busy figure does not outvote a wide calm background.
const cellSide = 16

// minGradient is the smallest slope, in levels a pixel of the smoothed luma,
// on which displacement can be told. Eight-bit rounding alone is worth about
// half a level, so a slope of 2 keeps its error near a quarter of a pixel.
const minGradient = 2.0

// noiseGradient is the slope, in levels a pixel for each level of grain, that
// stands out from grain: blurred by picture.SmoothSigma grain leaves slopes of
// 0.2 of its own deviation, and a cell of 256 pixels shows slopes of five times
// that only where there is an outline.
const noiseGradient = 1.0

// A point is the place of steepest slope in its cell, with the displacement
// seen there. Coordinates are from the middle of the picture.
type point struct {
	x, y   float64
	u, v   float64 // displacement, pixels
	nx, ny float64 // unit vector along the slope: the direction in which it can be trusted
	cell   int
}

// grid cuts a w by h picture into cells, leaving out a margin in which slopes
// and windows would reach outside.
type grid struct {
	w, h, cols, rows int
}

// margin is the border, in pixels, that the measuring leaves alone.
const margin = 4

func newGrid(w, h int) grid {
	return grid{w: w, h: h, cols: max(1, (w-2*margin)/cellSide), rows: max(1, (h-2*margin)/cellSide)}
}

// origin returns the top left pixel of a cell and its size; the last column
// and row take up what is left over.
func (g grid) bounds(cell int) (x0, y0, x1, y1 int) {
	cx, cy := cell%g.cols, cell/g.cols
	x0, y0 = margin+cx*cellSide, margin+cy*cellSide
	x1, y1 = x0+cellSide, y0+cellSide
	if cx == g.cols-1 {
		x1 = g.w - margin
	}
	if cy == g.rows-1 {
		y1 = g.h - margin
	}
	return x0, y0, x1, y1
}

// slope returns the central difference of the smoothed luma at pixel i.
func slope(s []uint8, w, i int) (gx, gy float64) {
	return (float64(s[i+1]) - float64(s[i-1])) / 2, (float64(s[i+w]) - float64(s[i-w])) / 2
}

// points appends to dst one point for each cell that has a
// slope of least, in levels a pixel, at a place that stays in the picture.
func (g grid) points(dst []point, from *picture.Picture, f *flow.Field, least float64) []point {
	for cell := range g.cols * g.rows {
		if i, ok := g.steepest(from.Smooth, cell, least); ok && g.stays(f, i) {
			dst = append(dst, g.at(from.Smooth, f, cell, i))
		}
	}
	return dst
}

// steepest returns the index of the pixel of largest slope in a cell; ok is
// false where none is over least, in levels a pixel.
func (g grid) steepest(s []uint8, cell int, least float64) (index int, ok bool) {
	x0, y0, x1, y1 := g.bounds(cell)
	best := int32(4 * least * least)
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			i := y*g.w + x
			dx, dy := int32(s[i+1])-int32(s[i-1]), int32(s[i+g.w])-int32(s[i-g.w])
			if e := dx*dx + dy*dy; e > best {
				best, index, ok = e, i, true
			}
		}
	}
	return index, ok
}

// stays reports whether pixel i is still in the picture after its displacement;
// what leaves cannot be followed.
func (g grid) stays(f *flow.Field, i int) bool {
	x, y := i%g.w, i/g.w
	u, v := f.At(x, y)
	qx, qy := float64(x)+float64(u), float64(y)+float64(v)
	return qx >= 0 && qy >= 0 && qx <= float64(g.w-1) && qy <= float64(g.h-1)
}

func (g grid) at(s []uint8, f *flow.Field, cell, i int) point {
	x, y := i%g.w, i/g.w
	u, v := f.At(x, y)
	gx, gy := slope(s, g.w, i)
	n := math.Hypot(gx, gy)
	return point{
		x: float64(x) - float64(g.w-1)/2, y: float64(y) - float64(g.h-1)/2,
		u: float64(u), v: float64(v), nx: gx / n, ny: gy / n, cell: cell,
	}
}
