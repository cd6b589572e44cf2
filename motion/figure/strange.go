package figure

import (
	"image"
	"math"
	"slices"
)

// Ground goes on to the left and right: floors, walls and horizons lie level in
// most pictures. What looks like nothing at its own height on either side stands
// before the ground. That tells a figure from the plate that holds it.

const (
	// reachDown and reachUp are how far below and above what moves the rest of a
	// figure may lie, in sizes of what moves (its longer side): a figure may be
	// eight heads high, and an arm that moves hangs below a head.
	reachDown, reachUp = 8.0, 1.0
	// reachSide is how far it may lie to either side, as a share of the picture's
	// height; what moves may be a hand.
	reachSide = 0.08
	// leastGround is how wide the ground to both sides together must be, as a
	// share of the window, to tell anything.
	leastGround = 0.5
	// levelBand is how many rows up and down count as the same height, as a share
	// of the picture's height: what lies level may still slope a little.
	levelBand = 0.012
	// levelStride is the distance, in pixels, between the pixels of the ground
	// that are looked at; odd, so that a pattern is not favoured.
	levelStride = 3
	// usualGround is the share of the ground that must be like the ground on the
	// other side: what is stranger than that is no ground.
	usualGround = 0.97
)

// A window is the part of the plate where the rest of a figure is looked for;
// left and right of it is ground. Canvas pixels.
type window struct {
	Box
	w, h int // of the canvas
	band int
}

// newWindow lays out the window around the box of what moves.
func newWindow(b Box, canvas image.Point, picture int) window {
	size := float64(max(b.W(), b.H()))
	side := int(reachSide * float64(picture))
	return window{
		Box: Box{max(0, b.X0-side), max(0, b.Y0-int(reachUp*size)), min(canvas.X, b.X1+side), min(canvas.Y, b.Y1+int(reachDown*size))},
		w:   canvas.X, h: canvas.Y,
		band: max(1, int(levelBand*float64(picture))),
	}
}

// judges reports whether there is ground enough beside the window.
func (v *window) judges() bool {
	return float64(v.w-v.W()) >= leastGround*float64(v.W()) && !v.Empty()
}

// tone is one pixel's luma and chroma.
type tone [channelSeen]uint8

// ground appends to dst the tones of the plate that lie level with row y between
// two columns.
func (p *Plate) ground(dst []tone, y, x0, x1, band int) []tone {
	for row := max(0, y-band); row <= min(p.canvas.H-1, y+band); row++ {
		for x := x0 + row%levelStride; x < x1; x += levelStride {
			if t, ok := p.tone(x, row); ok {
				dst = append(dst, t)
			}
		}
	}
	return dst
}

func (p *Plate) tone(x, y int) (tone, bool) {
	i := (y*p.canvas.W + x) * channels
	v := p.canvas.Pix[i : i+channels]
	return tone{v[channelY], v[channelCb], v[channelCr]}, v[channelSeen] == 255
}

// nearest is how unlike t is to the most alike of a list, levels; less than
// enough is not told apart.
func (t tone) nearest(list []tone, enough int) int {
	best := math.MaxInt
	for _, s := range list {
		if d := t.unlike(s); d < best {
			if best = d; d <= enough {
				break
			}
		}
	}
	return best
}

func (t tone) unlike(s tone) int {
	d := func(c int) int { v := int(t[c]) - int(s[c]); return max(v, -v) }
	return max(d(channelY), chromaTwice*max(d(channelCb), d(channelCr)))
}

// chromaTwice is chromaWeight in whole numbers, rounded up.
const chromaTwice = 2

// strange marks in m, of canvas size, what of the window is unlike all ground
// level with it.
func (p *Plate) strange(m *Mask, v window) {
	clear(m.Pix)
	limit := p.usual(v)
	var list []tone
	for y := v.Y0; y < v.Y1; y++ {
		list = p.ground(list[:0], y, 0, v.X0, v.band)
		list = p.ground(list, y, v.X1, v.w, v.band)
		if len(list) == 0 {
			continue
		}
		for x := v.X0; x < v.X1; x++ {
			if t, ok := p.tone(x, y); ok && t.nearest(list, limit) > limit {
				m.Pix[y*v.w+x] = 255
			}
		}
	}
}

// usual is how unlike, in levels, the ground on one side of the window is to
// that on the other, but for its strangest part.
func (p *Plate) usual(v window) int {
	var unlike []int
	var left, right []tone
	for y := v.Y0; y < v.Y1; y += levelStride {
		left = p.ground(left[:0], y, 0, v.X0, v.band)
		right = p.ground(right[:0], y, v.X1, v.w, v.band)
		if len(left) == 0 || len(right) == 0 {
			continue
		}
		for i := 0; i < len(left); i += noiseStride {
			unlike = append(unlike, left[i].nearest(right, 0))
		}
		for i := 0; i < len(right); i += noiseStride {
			unlike = append(unlike, right[i].nearest(left, 0))
		}
	}
	if len(unlike) == 0 {
		return leastFigure
	}
	slices.Sort(unlike)
	return max(leastStrange, unlike[int(usualGround*float64(len(unlike)-1))])
}

// leastStrange is the smallest difference, in levels, that makes a pixel of the
// plate strange; a median of many frames has less noise than a frame.
const leastStrange = 5
