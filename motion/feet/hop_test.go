package feet

import (
	"math"
	"slices"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// skip is how far down the trunk of a figure is, figure heights, that skips on one
// spot: in the air for air seconds under a pull, heights a second a second, then
// pushed up for ground seconds.
func skip(t, air, ground, pull float64) float64 {
	u := math.Mod(t, air+ground)
	if u < air { // free
		return -pull * u * (air - u) / 2
	}
	push := pull * air / ground
	u -= air
	return push * u * (ground - u) / 2
}

// The pull is free fall's of a person of 1.7 m, 9.80665 m/s² (3rd CGPM, 1901).
func TestFreeFalls(t *testing.T) {
	const g, height = 9.80665 / 1.7, 200.0
	for name, c := range map[string]struct {
		down  func(t float64) float64
		rate  float64
		hops  int
		rise  float64
		after float64 // seconds in the air
	}{
		"skips":            {func(t float64) float64 { return skip(t+0.4, 0.4, 0.25, g) }, 24, 2, g * 0.16 / 8, 0.4},
		"skips at 60":      {func(t float64) float64 { return skip(t+0.4, 0.4, 0.25, g) }, 60, 2, g * 0.16 / 8, 0.4},
		"bobs":             {func(t float64) float64 { return 0.06 * math.Sin(2*math.Pi*2*t) }, 24, 0, 0, 0},
		"floats":           {func(t float64) float64 { return skip(t+0.4, 0.7, 0.2, g/4) }, 24, 1, g / 4 * 0.49 / 8, 0.7},
		"bounces a little": {func(t float64) float64 { return skip(t+0.4, 0.2, 0.15, g) }, 24, 0, 0, 0},
		"stands":           {func(float64) float64 { return 0 }, 24, 0, 0, 0},
	} {
		b := &body{height: height}
		var y []float64
		for i := range int(1.6 * c.rate) {
			y, b.x = append(y, height*c.down(float64(i)/c.rate)), append(b.x, 0)
		}
		got := b.freeFalls(y, c.rate)
		if len(got) != c.hops {
			t.Errorf("%s: %+v, want %d hops", name, got, c.hops)
			continue
		}
		for _, f := range got {
			if floats := f.pull < hopPull; floats != (name == "floats") {
				t.Errorf("%s: pulled by %.2f heights a second a second", name, f.pull)
			}
			if n := float64(f.End - f.Start + 1); math.Abs(n-c.after*c.rate) > 2 || math.Abs(f.Share-c.rise) > 0.2*c.rise {
				t.Errorf("%s: %+v, want %.0f frames and a rise of %.3f", name, f, c.after*c.rate, c.rise)
			}
		}
	}
}

// hovering are frames of a striped floor on which a pair of dark soles stands at rows
// 80 to 90, higher by up(t).
func hovering(frames int, up func(t int) int) *Stretch {
	s := &Stretch{Rate: 24, W: 128, H: 96}
	for t := range frames {
		luma := make([]uint8, s.W*s.H)
		for i := range luma {
			x, y := i%s.W, i/s.W+up(t)
			luma[i] = uint8(140 + 20*((i/s.W/4+i%s.W/8)%2))
			if y >= 80 && y < 90 && (x >= 40 && x < 58 || x >= 66 && x < 84) {
				luma[i] = uint8(30 + x%18)
			}
		}
		s.Luma, s.Path = append(s.Luma, luma), append(s.Path, camera.Identity)
	}
	return s
}

func TestSoleRises(t *testing.T) {
	const rise = 12.0
	hop := Flight{Start: 4, End: 12, Rise: rise}
	arc := func(of float64) func(t int) int {
		return func(t int) int {
			u := float64(t-3) / 10
			return int(math.Round(of * rise * max(0, 4*u*(1-u))))
		}
	}
	for name, c := range map[string]struct {
		of   float64 // of the trunk's rise
		want bool
	}{
		"go up with the trunk":    {1, true},
		"are drawn up":            {1.4, true},
		"stay while the knees do": {0, false},
		"shift a little":          {0.2, false},
	} {
		s := hovering(16, arc(c.of))
		f := &figure.Figure{HeightPx: 100}
		for range 16 {
			f.Boxes = append(f.Boxes, figure.Box{X0: 36, Y0: 4, X1: 88, Y1: 90})
		}
		if got := s.soleRises(&body{height: 100}, f, hop); got != c.want {
			t.Errorf("soles that %s: rise %v, want %v", name, got, c.want)
		}
	}
}

func TestLanded(t *testing.T) {
	s := &Stretch{Rate: 24}
	hops := []Flight{{Start: 20, End: 29}, {Start: 50, End: 59}}
	type frames [2]int
	for name, c := range map[string]struct {
		stand Contact
		want  []frames
	}{
		"before any":               {Contact{Start: 0, End: 19}, []frames{{0, 19}}},
		"through both":             {Contact{Start: 0, End: 79}, []frames{{0, 19}, {30, 49}, {60, 79}}},
		"into one":                 {Contact{Start: 5, End: 24}, []frames{{5, 19}}},
		"lands a frame early":      {Contact{Start: 29, End: 45}, []frames{{30, 45}}},
		"in the air":               {Contact{Start: 22, End: 27}, nil},
		"for the better part":      {Contact{Start: 15, End: 28}, nil},
		"goes on but for a moment": {Contact{Start: 5, End: 30}, []frames{{5, 19}}},
	} {
		var got []frames
		for _, p := range s.landed([]Contact{c.stand}, hops) {
			got = append(got, frames{p.Start, p.End})
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: stands %v, want %v", name, got, c.want)
		}
	}
	slide := Contact{Start: 10, End: 50, X: 100, LastX: 140, Slip: 40, Share: 0.4}
	if p := slide.part(20, 30); p.X != 110 || p.LastX != 120 || p.Slip != 10 || math.Abs(p.Share-0.1) > 1e-9 {
		t.Errorf("a quarter of an even slide: %+v", p)
	}
}
