package scene

import "math"

// textureCells are the lattice spacings of the octaves in stage units, and
// their shares of the levels: strong enough in the fine ones to be followed.
var textureCells = [...]struct{ size, share float64 }{
	{90, 0.30}, {41, 0.24}, {19, 0.20}, {9, 0.20}, {5, 0.22}, {2.7, 0.18},
}

// finestCell is the least lattice spacing in pixels of the plate. Below it the
// plate could not carry the octave, and moving it would shimmer.
const finestCell = 3

// addTexture adds value noise of several octaves (Perlin 1985's scheme, values
// on a lattice rather than gradients) to the luma of a plate. The lattice lies
// in the world, so it does not depend on what part of it the plate shows.
func addTexture(c *canvas, toWorld affine, seed uint64, levels float64) {
	sum := make([]float32, len(c.y))
	for k, o := range textureCells {
		if o.size/toWorld.a >= finestCell {
			addOctave(sum, c.w, c.h, toWorld, o.size, float32(levels*o.share*unitLevel), hash(seed, uint64(k)))
		}
	}
	for i, v := range c.y {
		c.y[i] = uint16(max(16*unitLevel, min(235*unitLevel, int32(v)+int32(sum[i]))))
	}
}

// addOctave adds lattice noise of the given cell to sum, w by h.
func addOctave(sum []float32, w, h int, m affine, cell float64, amplitude float32, seed uint64) {
	x0 := math.Floor((m.a*0.5 + m.c) / cell)
	columns := int(math.Ceil((m.a*float64(w)+m.c)/cell)-x0) + 2
	index, weight := make([]int, w), make([]float32, w)
	for x := range w {
		u := (m.a*(float64(x)+0.5)+m.c)/cell - x0
		f := math.Floor(u)
		u -= f
		index[x], weight[x] = int(f), float32(u*u*(3-2*u))
	}
	upper, lower := make([]float32, columns), make([]float32, columns)
	last := math.Inf(-1)
	for y := range h {
		v := (m.e*(float64(y)+0.5) + m.f) / cell
		row := math.Floor(v)
		if row != last {
			latticeRow(upper, seed, row, x0)
			latticeRow(lower, seed, row+1, x0)
			last = row
		}
		v -= row
		t := float32(v * v * (3 - 2*v))
		out := sum[y*w : (y+1)*w]
		for x, i := range index {
			a := upper[i] + (upper[i+1]-upper[i])*weight[x]
			b := lower[i] + (lower[i+1]-lower[i])*weight[x]
			out[x] += amplitude * (a + (b-a)*t)
		}
	}
}

func latticeRow(dst []float32, seed uint64, row, x0 float64) {
	for i := range dst {
		dst[i] = float32(2*HashUnit(seed, uint64(int64(row)), uint64(int64(x0)+int64(i))) - 1)
	}
}
