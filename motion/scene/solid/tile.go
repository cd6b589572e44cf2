package solid

import (
	"math"
	"sync"

	"holdfast/motion/scene"
)

// A tile is a square of noise that fits to itself on all sides, at sizes that
// halve (Williams 1983, pyramidal parametrics), so that it can be looked up at
// any scale without shimmer. Values lie about 0, most within -1..1.
type tile struct{ levels [][]float32 }

// tileSize is the side of the finest level, a power of two.
const tileSize = 512

// tileCells are the lattice spacings of the octaves of noise and their shares.
var tileCells = [...]struct {
	size  int
	share float64
}{{128, 0.34}, {64, 0.3}, {32, 0.3}, {16, 0.3}, {8, 0.3}, {4, 0.25}, {2, 0.2}}

var noise = sync.OnceValue(func() *tile {
	base := make([]float32, tileSize*tileSize)
	for k, o := range tileCells {
		addOctave(base, o.size, o.share, uint64(k))
	}
	t := &tile{levels: [][]float32{base}}
	for n := tileSize / 2; n >= 1; n /= 2 {
		t.levels = append(t.levels, halved(t.levels[len(t.levels)-1], n))
	}
	return t
})

// addOctave adds value noise on a lattice that closes on itself.
func addOctave(dst []float32, cell int, share float64, seed uint64) {
	n := tileSize / cell
	at := func(x, y int) float64 { return 2*scene.HashUnit(seed, uint64(x%n), uint64(y%n)) - 1 }
	for y := range tileSize {
		v, j := ease(float64(y%cell)/float64(cell)), y/cell
		for x := range tileSize {
			u, i := ease(float64(x%cell)/float64(cell)), x/cell
			top := at(i, j) + (at(i+1, j)-at(i, j))*u
			low := at(i, j+1) + (at(i+1, j+1)-at(i, j+1))*u
			dst[y*tileSize+x] += float32(share * (top + (low-top)*v))
		}
	}
}

func ease(u float64) float64 { return u * u * (3 - 2*u) }

// halved returns src, 2n by 2n, at n by n.
func halved(src []float32, n int) []float32 {
	dst := make([]float32, n*n)
	for y := range n {
		for x := range n {
			i := 2*y*2*n + 2*x
			dst[y*n+x] = (src[i] + src[i+1] + src[i+2*n] + src[i+2*n+1]) / 4
		}
	}
	return dst
}

// at returns the noise at (u, v), in tiles, for a pixel as wide as size, in
// tiles too.
func (t *tile) at(u, v, size float64) float32 {
	lod := max(0, min(log2(size*tileSize), float64(len(t.levels)-2)))
	k := int(lod)
	a := t.level(k, u, v)
	if f := float32(lod - float64(k)); f > 0 {
		a += (t.level(k+1, u, v) - a) * f
	}
	return a
}

// log2 is a logarithm good to a hundredth, continuous, which is all that
// picking a level takes.
func log2(x float64) float64 {
	if x <= 0 {
		return 0
	}
	m, e := math.Frexp(x)
	m *= 2
	return float64(e-1) + (m-1)*(5-m)/3
}

func (t *tile) level(k int, u, v float64) float32 {
	n := tileSize >> k
	p := t.levels[k]
	x, y := u*float64(n)-0.5, v*float64(n)-0.5
	fx, fy := math.Floor(x), math.Floor(y)
	i, j := int(fx)&(n-1), int(fy)&(n-1)
	i1, j1 := (i+1)&(n-1), (j+1)&(n-1)
	a, b := float32(x-fx), float32(y-fy)
	top := p[j*n+i] + (p[j*n+i1]-p[j*n+i])*a
	low := p[j1*n+i] + (p[j1*n+i1]-p[j1*n+i])*a
	return top + (low-top)*b
}
