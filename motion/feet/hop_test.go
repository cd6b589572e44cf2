package feet

import (
	"math"
	"testing"
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
		"sways up slowly":  {func(t float64) float64 { return skip(t+0.4, 0.9, 0.5, g/4) }, 24, 0, 0, 0},
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
			if n := float64(f.End - f.Start + 1); math.Abs(n-c.after*c.rate) > 2 || math.Abs(f.Share-c.rise) > 0.2*c.rise {
				t.Errorf("%s: %+v, want %.0f frames and a rise of %.3f", name, f, c.after*c.rate, c.rise)
			}
		}
	}
}
