package scene

import (
	"image"
	"math"
	"sync"
)

// A Condition is what light, lens and sensor do to a clip. The zero Condition
// does nothing.
type Condition struct {
	Name     string
	Noise    float64 // standard deviation of the grain in 8-bit levels of luma; chroma has half
	Flicker  float64 // standard deviation of the light from frame to frame, share of it
	Contrast float64 // of the picture about mid grey; 0 means 1
	Shutter  float64 // share of a frame's time that the shutter is open: motion blur; 0 means none
}

// over returns what c does to a clip that was made under base: the stronger of
// both, since no grain goes away.
func (c Condition) over(base Condition) Condition {
	c.Noise = math.Max(c.Noise, base.Noise)
	c.Flicker = math.Max(c.Flicker, base.Flicker)
	c.Shutter = math.Max(c.Shutter, base.Shutter)
	if c.Contrast == 0 {
		c.Contrast = base.Contrast
	}
	return c
}

// exposureTimes is how many instants of an open shutter are averaged.
const exposureTimes = 8

// midGrey is the level about which contrast is taken.
const midGrey = 126

// A light is what turns a canvas into levels: out = gain*in + bias.
type light struct{ gain, bias float64 }

func (c Condition) light(seed uint64, frame int) light {
	l := light{gain: 1}
	if c.Contrast > 0 {
		l = light{c.Contrast, midGrey * (1 - c.Contrast)}
	}
	if c.Flicker > 0 {
		g := gauss()
		k := 1 + c.Flicker*float64(g[hash(seed, uint64(frame), 1)%gaussSize])
		l.gain, l.bias = l.gain*k, l.bias*k+16*(1-k)
	}
	return l
}

const gaussSize = 1 << 12

// gauss is a table of the normal distribution at even shares of probability,
// in an order without meaning; draws from it have mean 0 and deviation 1.
var gauss = sync.OnceValue(func() *[gaussSize]float32 {
	t := new([gaussSize]float32)
	for i := range t {
		p := (float64(i) + 0.5) / gaussSize
		t[i] = float32(math.Sqrt2 * math.Erfinv(2*p-1))
	}
	return t
})

// LevelSteps is how many steps of a Film make one 8-bit level.
const LevelSteps = unitLevel

// A Film is an undeveloped 4:2:0 picture, in steps of 1/LevelSteps level. Width
// and height are even.
type Film struct {
	Width, Height int
	Y, Cb, Cr     []uint16
}

// Develop writes film into dst as Draw does with what a scene shows: seed and
// frame pick grain and flicker.
func (c Condition) Develop(dst *image.YCbCr, film *Film, seed uint64, frame int) {
	from := &canvas{w: film.Width, h: film.Height, cw: film.Width / 2, ch: film.Height / 2, y: film.Y, cb: film.Cb, cr: film.Cr}
	c.develop(dst, from, seed, frame)
}

// develop writes the canvas into dst under the condition's light and grain.
// Frames with the same number get the same grain.
func (c Condition) develop(dst *image.YCbCr, from *canvas, seed uint64, frame int) {
	l := c.light(seed, frame)
	grain := grainTable(c.Noise)
	developPlane(dst.Y, dst.YStride, from.y, from.w, l, grain, hash(seed, uint64(frame), 2))
	color := light{l.gain, 128 * (1 - l.gain)}
	grain = grainTable(c.Noise / 2)
	developPlane(dst.Cb, dst.CStride, from.cb, from.cw, color, grain, hash(seed, uint64(frame), 3))
	developPlane(dst.Cr, dst.CStride, from.cr, from.cw, color, grain, hash(seed, uint64(frame), 4))
}

// grainTable is gauss in steps of a canvas; nil without noise.
func grainTable(sigma float64) *[gaussSize]int32 {
	if sigma == 0 {
		return nil
	}
	t := new([gaussSize]int32)
	for i, v := range gauss() {
		t[i] = int32(math.Round(float64(v) * sigma * unitLevel))
	}
	return t
}

func developPlane(dst []uint8, stride int, src []uint16, w int, l light, grain *[gaussSize]int32, seed uint64) {
	const one = 1 << 12
	gain := int64(math.Round(l.gain * one))
	bias := int64(math.Round((l.bias + 0.5) * unitLevel * one))
	for y := 0; y*w < len(src); y++ {
		row, out := src[y*w:(y+1)*w], dst[y*stride:y*stride+w]
		if grain == nil {
			for x, v := range row {
				out[x] = clampLevel((int64(v)*gain + bias) / (one * unitLevel))
			}
			continue
		}
		state := hash(seed, uint64(y)) | 1
		for x, v := range row {
			// xorshift64* (Vigna 2016): fast, and good enough for grain.
			state ^= state >> 12
			state ^= state << 25
			state ^= state >> 27
			g := int64(grain[state*0x2545f4914f6cdd1d>>52])
			out[x] = clampLevel((int64(v)*gain + bias + g*one) / (one * unitLevel))
		}
	}
}

// clampLevel keeps to the levels that video may carry beside its sync codes.
func clampLevel(v int64) uint8 { return uint8(max(1, min(254, v))) }
