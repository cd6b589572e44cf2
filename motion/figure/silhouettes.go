package figure

import "math/bits"

// A Silhouette marks the pixels of one frame, at layer size, that belong to
// figures: one bit each, so that those of a stretch stay small (2 MB for twelve
// seconds).
type Silhouette struct {
	W, H  int // layer pixels
	Words []uint64
}

func newSilhouette(w, h int) Silhouette {
	return Silhouette{w, h, make([]uint64, (w*h+63)/64)}
}

// At reports whether a pixel of the layer is figure.
func (s *Silhouette) At(x, y int) bool {
	if x < 0 || y < 0 || x >= s.W || y >= s.H {
		return false
	}
	i := y*s.W + x
	return s.Words[i/64]>>(i%64)&1 != 0
}

func (s *Silhouette) set(i int) { s.Words[i/64] |= 1 << (i % 64) }

// Inside returns the box around what is marked within b, working pixels.
func (s *Silhouette) Inside(b Box) (in Box) {
	for y := max(0, b.Y0/Shrink); y < min(s.H, (b.Y1+Shrink-1)/Shrink); y++ {
		for x := max(0, b.X0/Shrink); x < min(s.W, (b.X1+Shrink-1)/Shrink); x++ {
			if s.At(x, y) {
				in = in.Union(Box{x, y, x + 1, y + 1}.scale(Shrink))
			}
		}
	}
	return in
}

// put marks what m marks inside a box, layer pixels.
func (s *Silhouette) put(m *Mask, b Box) {
	for y := b.Y0; y < b.Y1; y++ {
		for x := b.X0; x < b.X1; x++ {
			if m.Pix[y*m.W+x] != 0 {
				s.set(y*m.W + x)
			}
		}
	}
}

// each calls f for every pixel marked.
func (s *Silhouette) each(f func(x, y int)) {
	for k, word := range s.Words {
		for ; word != 0; word &= word - 1 {
			i := k*64 + bits.TrailingZeros64(word)
			f(i%s.W, i/s.W)
		}
	}
}

// Pixels returns a value for each pixel of the layer, row by row.
func (s *Silhouette) Pixels() []bool {
	p := make([]bool, s.W*s.H)
	s.each(func(x, y int) { p[y*s.W+x] = true })
	return p
}

// Middle returns the mean place of the pixels that are set, and how many they are.
func (s *Silhouette) Middle() (x, y float64, n int) {
	s.each(func(i, j int) {
		x, y, n = x+float64(i), y+float64(j), n+1
	})
	if n > 0 {
		x, y = x/float64(n), y/float64(n)
	}
	return x, y, n
}
