package camera

import (
	"image"
	"math"

	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

// Thumbnail size, in cells: enough to tell two set-ups apart, and small enough
// that a stray object does not matter.
const thumbW, thumbH = 16, 9

// changeStride is the distance, in pixels, between the pixels that are
// compared; flow is smooth over such distances.
const changeStride = 4

// hardChange is the mean difference, in levels summed over luma and chroma,
// from which a cell shows something else than the frame before: over the
// grain and coding noise of poor footage (about 5), under the difference
// between any two unlike surfaces.
const hardChange = 12.0

// A Change is what the flow from one frame to the next leaves unexplained.
type Change struct {
	Hard   float64 // share of the picture's cells that show something else, 0..1
	Seen   float64 // the same among cells with something to see in either frame
	Spread float64 // width times height of the region of changed cells over the picture's, 0..1
	Amount float64 // mean difference, levels summed over luma and chroma
	Thumb  Thumb   // the later frame
}

// A Thumb is a frame at a few cells: luma and both chroma means.
type Thumb [3 * thumbW * thumbH]float32

// Distance returns the mean difference of two thumbnails, in levels summed
// over luma and chroma.
func (t *Thumb) Distance(u *Thumb) float64 {
	sum := 0.0
	for i := range t {
		sum += math.Abs(float64(t[i] - u[i]))
	}
	return sum / (thumbW * thumbH)
}

// NewThumb averages a picture down.
func NewThumb(p *picture.Picture) Thumb { return thumbOf(p, area{image.Rect(0, 0, p.W, p.H)}) }

// shrink averages every second row and column of each thumbnail cell over a part
// of a plane w wide.
func shrink(dst []float32, src []uint8, w int, r image.Rectangle) {
	if r.Empty() {
		return
	}
	for ty := range thumbH {
		y0, y1 := slice(r.Min.Y, r.Dy(), ty, thumbH)
		for tx := range thumbW {
			x0, x1 := slice(r.Min.X, r.Dx(), tx, thumbW)
			sum, n := 0, 0
			for y := y0; y < y1; y += 2 {
				for x := x0; x < x1; x += 2 {
					sum += int(src[y*w+x])
					n++
				}
			}
			dst[ty*thumbW+tx] = float32(sum) / float32(n)
		}
	}
}

// slice is the i-th of n parts of a length from a start, at least one long.
func slice(start, length, i, n int) (from, to int) {
	from = start + i*length/n
	return from, max(from+1, start+(i+1)*length/n)
}

// NewChange compares two frames, the later one fetched back along the flow.
// f may be nil for pictures too small to have any.
func NewChange(from, to *picture.Picture, f *flow.Field) Change {
	c := Change{Thumb: NewThumb(to)}
	cells, seen, seenChanged := 0, 0, 0
	left, right, top, bottom := from.W, 0, from.H, 0
	for y := 0; y < from.H; y += cellSide {
		for x := 0; x < from.W; x += cellSide {
			d, contrast := compareCell(from, to, f, x, y)
			cells++
			c.Amount += d
			hard := d >= hardChange
			if contrast >= hardChange || hard {
				seen++
			}
			if hard {
				seenChanged++
				left, right = min(left, x), max(right, x+cellSide)
				top, bottom = min(top, y), max(bottom, y+cellSide)
			}
		}
	}
	c.Amount /= float64(cells)
	c.Hard = float64(seenChanged) / float64(cells)
	if seen > 0 {
		c.Seen = float64(seenChanged) / float64(seen)
	}
	if right > left {
		c.Spread = float64(min(right, from.W)-left) * float64(min(bottom, from.H)-top) / float64(from.W*from.H)
	}
	return c
}

// compareCell returns the mean difference over the cell at (x0, y0) and the
// range of luma in the earlier frame.
func compareCell(from, to *picture.Picture, f *flow.Field, x0, y0 int) (diff, contrast float64) {
	n := 0
	low, high := uint8(255), uint8(0)
	for y := y0 + changeStride/2; y < min(y0+cellSide, from.H); y += changeStride {
		for x := x0 + changeStride/2; x < min(x0+cellSide, from.W); x += changeStride {
			i := y*from.W + x
			low, high = min(low, from.Smooth[i]), max(high, from.Smooth[i])
			tx, ty := x, y
			if f != nil {
				u, v := f.At(x, y)
				tx, ty = int(math.Round(float64(x)+float64(u))), int(math.Round(float64(y)+float64(v)))
			}
			if tx < 0 || ty < 0 || tx >= to.W || ty >= to.H {
				continue
			}
			a, b := (y/2)*from.CW()+x/2, (ty/2)*to.CW()+tx/2
			diff += level(from.Smooth[i], to.Smooth[ty*to.W+tx]) + level(from.Cb[a], to.Cb[b]) + level(from.Cr[a], to.Cr[b])
			n++
		}
	}
	if n > 0 {
		diff /= float64(n)
	}
	return diff, float64(high) - float64(low)
}

func level(a, b uint8) float64 { return math.Abs(float64(a) - float64(b)) }
