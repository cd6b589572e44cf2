package flow

import (
	"image"
	"math/rand/v2"
	"testing"
)

// TestSameAgain: a DIS that has measured other pictures in between says the
// same of the same pair.
func TestSameAgain(t *testing.T) {
	for _, size := range []image.Point{{X: 640, Y: 360}, {X: 320, Y: 180}, {X: 110, Y: 92}, {X: 57, Y: 41}} {
		r := rand.New(rand.NewPCG(3, 4))
		picture := func() *image.Gray {
			g := image.NewGray(image.Rectangle{Max: size})
			for i := range g.Pix {
				g.Pix[i] = uint8(r.IntN(256))
			}
			return g
		}
		a, b, c := picture(), picture(), picture()
		d, err := NewDIS(Fast)
		if err != nil {
			t.Fatal(err)
		}
		var first, between, again Field
		for _, pair := range []struct {
			dst      *Field
			from, to *image.Gray
		}{{&first, a, b}, {&between, c, a}, {&again, a, b}} {
			if err := d.Calc(pair.dst, pair.from, pair.to); err != nil {
				t.Fatal(err)
			}
		}
		d.Close()
		n := 0
		for i := range first.UV {
			if first.UV[i] != again.UV[i] {
				n++
			}
		}
		if n > 0 {
			t.Errorf("%v: %d of %d values differ", size, n, len(first.UV))
		}
	}
}
