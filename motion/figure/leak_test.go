//go:build matprofile

package figure

import (
	"testing"

	"gocv.io/x/gocv"
)

// TestNothingLeftOpen counts what is open outside Go's heap, which only a build
// with -tags matprofile can: after a camera that stands, one that moves, and a
// ghost lifted.
func TestNothingLeftOpen(t *testing.T) {
	pan := func(t int) float64 { return 1.3 * float64(t) }
	leaves := func(t int) []block { return []block{red(60+max(0, 9*(t-18)), 40, 24, 84)} }
	for name, c := range map[string]clip{
		"standing": {20, meadow, nil, crossing, 0}, "panning": {20, meadow, pan, crossing, 0},
		"leaving": {30, meadow, nil, leaves, 0}, "one frame": {1, meadow, nil, crossing, 0},
	} {
		s := c.film(t)
		before := gocv.MatProfile.Count()
		if before < c.frames {
			t.Fatalf("%s: %d matrices open where %d layers are: the count proves nothing", name, before, c.frames)
		}
		if _, err := Find(s.layers, s.path, s.maps, 24); err != nil {
			t.Fatal(err)
		}
		if p, err := NewPlate(s.layers, s.path[:0]); err == nil {
			p.Close()
			t.Errorf("%s: a plate is made without a camera path", name)
		}
		if n := gocv.MatProfile.Count() - before; n != 0 {
			t.Errorf("%s: %d matrices left open", name, n)
		}
	}
}
