package feet

import "testing"

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
