package feet

import (
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// A body in the air for a time rises by g t²/8: a seventh of the height of a
// person of 1.7 m in ten frames at 24 a second, a hundredth in three.
func TestFlightsLift(t *testing.T) {
	for name, c := range map[string]struct {
		frames int
		rate   float64
		share  float64
		want   bool
	}{
		"free fall, ten frames":        {10, 24, 0.125, true},
		"free fall, three frames":      {3, 24, 0.0113, true},
		"free fall, two frames":        {2, 24, 0.005, true},
		"free fall, five frames at 60": {5, 60, 0.005, true},
		"a cartoon that hangs":         {24, 24, 0.05, true},
		"a low cartoon that hangs":     {24, 24, 0.02, true},
		"carried, ten frames":          {10, 24, 0.008, false},
		"carried, three frames":        {3, 24, 0.004, false},
		"carried, 25 frames at 60":     {25, 60, 0.008, false},
		"does not rise":                {2, 24, 0, false},
	} {
		f := Flight{Start: 7, End: 7 + c.frames - 1, Share: c.share}
		if got := f.lifts(c.rate); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// A trunk of one colour goes where its outline goes, as the picture of it fits anywhere
// inside itself; not where only the outline's top goes.
func TestFlatTrunk(t *testing.T) {
	const w, h, frames = 128, 160, 9
	for name, c := range map[string]struct {
		up   func(t int) int // of its lower rim, pixels
		arms func(t int) int // how much higher its upper rim is than a body's height
		want float64         // how far up on frame 4
	}{
		"hops":           {func(t int) int { return 2 * t * (8 - t) }, func(int) int { return 0 }, 32},
		"stands":         {func(int) int { return 0 }, func(int) int { return 0 }, 0},
		"lifts its arms": {func(int) int { return 0 }, func(t int) int { return 4 * min(t, 5) }, 0},
	} {
		s := &Stretch{Rate: 24, W: w, H: h}
		f := &figure.Figure{HeightPx: 80}
		for i := range frames {
			b := figure.Box{X0: 48, Y0: 70 - c.up(i), X1: 80, Y1: 150 - c.up(i)}
			luma := make([]uint8, w*h)
			shape := figure.Silhouette{W: w / figure.Shrink, H: h / figure.Shrink, Words: make([]uint64, w*h/64/4)}
			for k := range luma {
				x, y := k%w, k/w
				luma[k] = uint8(60 + 10*((x/8+y/8)%2))
				arm := x >= 48 && x < 54 && y >= b.Y0-c.arms(i) && y < b.Y0
				if x >= b.X0 && x < b.X1 && y >= b.Y0 && y < b.Y1 || arm {
					luma[k] = 180
					j := y/figure.Shrink*shape.W + x/figure.Shrink
					shape.Words[j/64] |= 1 << (j % 64)
				}
			}
			b.Y0 -= c.arms(i)
			f.Boxes = append(f.Boxes, b)
			s.Luma, s.Bodies, s.Path = append(s.Luma, luma), append(s.Bodies, shape), append(s.Path, camera.Identity)
		}
		if got := -s.trunk(f, 0, frames-1)[4]; math.Abs(got-c.want) > 2 {
			t.Errorf("a trunk that %s: %.1f pixels up, want %.0f", name, got, c.want)
		}
	}
}
