package feet

import (
	"math"
	"testing"

	"holdfast/motion/figure"
)

// upright is a figure of one box a frame, from top to bottom as given, that fills
// its silhouettes.
func upright(frames int, top, bottom func(t int) int) (*Stretch, *figure.Figure) {
	const w, h = 320, 180
	s, f := &Stretch{Rate: 24, W: 2 * w, H: 2 * h}, &figure.Figure{HeightPx: 100}
	for t := range frames {
		box := figure.Box{X0: 100, Y0: top(t), X1: 140, Y1: bottom(t)}
		shape := figure.Silhouette{W: w, H: h, Words: make([]uint64, w*h/64)}
		for y := box.Y0 / 2; y < box.Y1/2; y++ {
			for x := box.X0 / 2; x < box.X1/2; x++ {
				shape.Words[(y*w+x)/64] |= 1 << ((y*w + x) % 64)
			}
		}
		s.Bodies, f.Boxes = append(s.Bodies, shape), append(f.Boxes, box)
		s.Still = append(s.Still, false)
	}
	return s, f
}

func TestMeasureHeights(t *testing.T) {
	constant := func(v int) func(int) int { return func(int) int { return v } }
	tests := []struct {
		name        string
		top, bottom func(t int) int
		first, last float64 // heights
	}{
		{"stays", constant(100), constant(200), 100, 100},
		// From 80 pixels to 160, its eyes level with the camera's.
		{"comes nearer", func(t int) int { return 100 - t/12*2 }, func(t int) int { return 180 + t/4*2 }, 88, 152},
		{"sits down", func(t int) int { return 100 + t/2 }, constant(200), 100, 100},
		{"legs come into sight", constant(100), func(t int) int { return 140 + 60*min(1, t/60) }, 100, 100},
	}
	for _, c := range tests {
		s, f := upright(120, c.top, c.bottom)
		w := s.walker(f)
		w.look()
		if a, b := w.tallIn(0), w.tallIn(119); math.Abs(a-c.first) > 8 || math.Abs(b-c.last) > 8 {
			t.Errorf("%s: %g pixels high, then %g, want %g and %g", c.name, a, b, c.first, c.last)
		}
	}
}
