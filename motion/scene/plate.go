package scene

import "math"

// A plate is the backdrop of one shot painted once, larger than any one view
// of it, from which every frame is sampled.
type plate struct {
	*canvas
	fromWorld affine
}

// maxPlate bounds the memory of a plate: 40 million samples are 120 MB.
const maxPlate = 40e6

// sharpness is the plate's pixels a pixel of the picture: small pictures get
// finer plates, or sampling between their pixels would show.
func sharpness(height int) float64 {
	switch {
	case height <= 400:
		return 2
	case height <= 800:
		return 1.5
	default:
		return 1
	}
}

// newPlate paints what the camera of sh sees over the whole shot.
func (sc *Scene) newPlate(sh *shot) *plate {
	area, most := nothing, 0.0
	w, h := float64(sc.Width), float64(sc.Height)
	for t := -0.5; t <= float64(sh.Frames); t += 0.25 {
		v := sc.viewOf(sh, t)
		most = math.Max(most, v.scale)
		toWorld := v.onto(sc.Width, sc.Height).inverse()
		for _, p := range []Point{{0, 0}, {w, 0}, {0, h}, {w, h}} {
			area = area.with(toWorld.at(p))
		}
	}
	const margin = 6 // stage units, for sampling at the very edge
	area = box{area.x0 - margin, area.y0 - margin, area.x1 + margin, area.y1 + margin}
	density := most * sharpness(sc.Height)
	if n := (area.x1 - area.x0) * (area.y1 - area.y0) * density * density; n > maxPlate {
		density *= math.Sqrt(maxPlate / n)
	}
	pw, ph := int(math.Ceil((area.x1-area.x0)*density)), int(math.Ceil((area.y1-area.y0)*density))
	m := scale(density, density).mul(shift(-area.x0, -area.y0))
	p := painter{on: newCanvas(pw, ph), m: m, area: area}
	p.paintBackdrop(sh.Backdrop)
	c := p.on
	gather(c.y, c.w, c.h)
	gather(c.cb, c.cw, c.ch)
	gather(c.cr, c.cw, c.ch)
	return &plate{c, m}
}

// gather blurs src by 1-2-1 both ways: a camera gathers light over the whole of
// a pixel, and a backdrop sampled without that would shimmer, its edges
// creeping by a tenth of a pixel against the camera's true path.
func gather(src []uint16, w, h int) {
	line := make([]uint16, max(w, h))
	blur := func(start, step, n int) {
		for i := range n {
			before, after := max(i-1, 0), min(i+1, n-1)
			sum := uint32(src[start+before*step]) + 2*uint32(src[start+i*step]) + uint32(src[start+after*step])
			line[i] = uint16((sum + 2) / 4)
		}
		for i := range n {
			src[start+i*step] = line[i]
		}
	}
	for y := range h {
		blur(y*w, 1, w)
	}
	for x := range w {
		blur(x, w, h)
	}
}

// sample draws the plate as the view m (world to picture) shows it.
func (p *plate) sample(c *canvas, m affine) {
	// Middle of a picture pixel to sample position on the plate.
	back := p.fromWorld.mul(m.inverse())
	luma := shift(-0.5, -0.5).mul(back).mul(shift(0.5, 0.5))
	resample(c.y, c.w, c.h, p.y, p.w, p.h, luma)
	half := scale(0.5, 0.5)
	chroma := shift(-0.5, -0.5).mul(half).mul(back).mul(scale(2, 2)).mul(shift(0.5, 0.5))
	resample(c.cb, c.cw, c.ch, p.cb, p.cw, p.ch, chroma)
	resample(c.cr, c.cw, c.ch, p.cr, p.cw, p.ch, chroma)
}

// resample sets dst to src at m of each pixel, bilinear between samples with
// steps of 1/256.
func resample(dst []uint16, w, h int, src []uint16, sw, sh int, m affine) {
	const one = 1 << 32
	dx, dy := int64(math.Round(m.a*one)), int64(math.Round(m.d*one))
	for y := range h {
		fx := int64(math.Round((m.b*float64(y) + m.c) * one))
		fy := int64(math.Round((m.e*float64(y) + m.f) * one))
		out := dst[y*w : (y+1)*w]
		for x := range out {
			ix, iy := int(fx>>32), int(fy>>32)
			if uint(ix) < uint(sw-1) && uint(iy) < uint(sh-1) {
				u, v := uint32(fx>>24)&255, uint32(fy>>24)&255
				i := iy*sw + ix
				top := uint32(src[i])*(256-u) + uint32(src[i+1])*u
				low := uint32(src[i+sw])*(256-u) + uint32(src[i+sw+1])*u
				out[x] = uint16((top>>4*(256-v) + low>>4*v + 1<<11) >> 12)
			} else {
				out[x] = src[min(max(iy, 0), sh-1)*sw+min(max(ix, 0), sw-1)]
			}
			fx += dx
			fy += dy
		}
	}
}
