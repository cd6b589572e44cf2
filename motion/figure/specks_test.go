package figure

import "testing"

// A trunk, a foot that lost trousers cut off, a patch far beside and a speck.
func TestTidy(t *testing.T) {
	s := newSilhouette(200, 100)
	fill := func(b Box) {
		for y := b.Y0; y < b.Y1; y++ {
			for x := b.X0; x < b.X1; x++ {
				s.set(y*s.W + x)
			}
		}
	}
	trunk, foot, patch, speck := Box{50, 10, 70, 50}, Box{75, 85, 85, 90}, Box{120, 85, 140, 95}, Box{60, 60, 62, 62}
	for _, b := range []Box{trunk, foot, patch, speck} {
		fill(b)
	}
	s.Tidy(Box{0, 0, 200 * Shrink, 100 * Shrink})
	for _, c := range []struct {
		name string
		box  Box
		want bool
	}{{"trunk", trunk, true}, {"foot", foot, true}, {"patch", patch, false}, {"speck", speck, false}} {
		if got := s.At(c.box.X0, c.box.Y0); got != c.want {
			t.Errorf("%s kept: %v", c.name, got)
		}
	}
}
