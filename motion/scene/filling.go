package scene

import (
	"image"
	"math"
	"sync"
)

// A filling is a paint made ready for one shape at one place.
type filling struct {
	y, cb, cr    int32
	full         int32 // 1/1024ths that a covered pixel takes on
	shaded       bool
	inv          affine  // canvas to own coordinates
	left, slope  float64 // shade in steps: slope*(x-left)
	weave, thick float64 // texture in steps; threads a stage unit
}

// threads is the number of lattice cells of the weave a stage unit: at 640 by
// 360 its structure is a few pixels wide, fine enough to follow and coarse
// enough to survive sampling.
const threads = 0.36

func newFilling(m affine, own box, p paint) filling {
	f := filling{y: int32(level(p.tone.y)), cb: int32(level(p.tone.cb)), cr: int32(level(p.tone.cr)), full: int32(math.Round(1024 * (1 - p.veil)))}
	if p.shade == 0 && p.weave == 0 {
		return f
	}
	f.shaded, f.inv, f.weave, f.thick = true, m.inverse(), p.weave*unitLevel, threads
	f.slope = p.shade * unitLevel / math.Max(1e-9, own.x1-own.x0)
	f.left = (own.x0 + own.x1) / 2
	return f
}

// at is what shade and weave add at the middle of pixel (x, y), in steps.
func (f *filling) at(x, y int) int32 {
	p := f.inv.at(Point{float64(x) + 0.5, float64(y) + 0.5})
	return int32(f.slope*(p.X-f.left) + f.weave*weaveAt(p.X*f.thick, p.Y*f.thick))
}

// lay blends the filling into r as far as the mask covers it.
func (c *canvas) lay(mask *image.Alpha, r image.Rectangle, f *filling) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := mask.Pix[(y-r.Min.Y)*mask.Stride:][:r.Dx()]
		out := c.y[y*c.w+r.Min.X:][:r.Dx()]
		for i, a := range row {
			if a == 0 {
				continue
			}
			v := f.y
			if f.shaded {
				v = min(255*unitLevel, max(0, v+f.at(r.Min.X+i, y)))
			}
			old := int32(out[i])
			out[i] = uint16(old + (v-old)*(int32(a)*f.full/255)/1024)
		}
	}
	c.layChroma(mask, r, f)
}

// layChroma does the same for chroma, by the mean cover of each two by two.
func (c *canvas) layChroma(mask *image.Alpha, r image.Rectangle, f *filling) {
	for cy := r.Min.Y / 2; cy < (r.Max.Y+1)/2; cy++ {
		top := mask.Pix[(2*cy-r.Min.Y)*mask.Stride:][:r.Dx()]
		low := top
		if 2*cy+1 < r.Max.Y {
			low = mask.Pix[(2*cy+1-r.Min.Y)*mask.Stride:][:r.Dx()]
		}
		for i := 0; i < r.Dx(); i += 2 {
			j := min(i+1, r.Dx()-1)
			a := (int32(top[i]) + int32(top[j]) + int32(low[i]) + int32(low[j])) * f.full / 1020
			if a == 0 {
				continue
			}
			k := cy*c.cw + (r.Min.X+i)/2
			cb, cr := int32(c.cb[k]), int32(c.cr[k])
			c.cb[k] = uint16(cb + (f.cb-cb)*a/1024)
			c.cr[k] = uint16(cr + (f.cr-cr)*a/1024)
		}
	}
}

// weaveSize is the side of the tile of the weave, a power of two.
const weaveSize = 64

// weaveTile holds the lattice of the weave, -1..1, the same in every scene.
var weaveTile = sync.OnceValue(func() *[weaveSize * weaveSize]float32 {
	t := new([weaveSize * weaveSize]float32)
	for i := range t {
		t[i] = float32(2*HashUnit(0x77656176, uint64(i)) - 1)
	}
	return t
})

// weaveAt is the weave at (x, y) in lattice cells, smooth between its knots.
func weaveAt(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	u, v := x-fx, y-fy
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	x0, y0 := int(fx)&(weaveSize-1), int(fy)&(weaveSize-1)
	x1, y1 := (x0+1)&(weaveSize-1), (y0+1)&(weaveSize-1)
	t := weaveTile()
	a, b := float64(t[y0*weaveSize+x0]), float64(t[y0*weaveSize+x1])
	c, d := float64(t[y1*weaveSize+x0]), float64(t[y1*weaveSize+x1])
	return lerp(lerp(a, b, u), lerp(c, d, u), v)
}
