package camera

import (
	"math"
	"slices"
	"testing"
)

// TestSummaryNumbers holds travel and zoom to sums done by hand, and kinds to
// directions. The step to a shot's first frame comes from another shot.
func TestSummaryNumbers(t *testing.T) {
	repeat := func(n int, s ...Similarity) []Similarity {
		return append([]Similarity{{A: 2, TX: 500}}, slices.Repeat(s, n)...)
	}
	shift := func(x, y float64) Similarity { return Similarity{A: 1, TX: x, TY: y} }
	for _, c := range []struct {
		name  string
		steps []Similarity
		w, h  int
		want  Summary
	}{
		{"no frame", nil, 640, 360, Summary{Still, 0, 0, 1}},
		{"one frame", repeat(0), 640, 360, Summary{Still, 0, 0, 1}},
		{"stands", repeat(30, Identity), 640, 360, Summary{Still, 0, 0, 1}},
		{"shivers by a pixel and back", repeat(20, shift(1, 0), shift(-1, 0)), 640, 360, Summary{Still, 0, 0, 1}},
		{"to the left", repeat(30, shift(2, 0)), 640, 360, Summary{Pan, -60, 0, 1}},
		{"to the right, a little down", repeat(30, shift(-2, -0.5)), 640, 360, Summary{Pan, 60, 15, 1}},
		{"up", repeat(30, shift(0, 1)), 640, 360, Summary{Tilt, 0, -30, 1}},
		{"across", repeat(30, shift(-2, -2)), 640, 360, Summary{Mixed, 60, 60, 1}},
		{"out and back", repeat(30, shift(3, 0), shift(-3, 0.1)), 640, 360, Summary{Handheld, 0, -3, 1}},
		{"push", repeat(10, Similarity{A: 1.01}), 640, 360, Summary{Push, 0, 0, math.Pow(1.01, 10)}},
		{"pull", repeat(10, Similarity{A: 1 / 1.01}), 640, 360, Summary{Pull, 0, 0, math.Pow(1.01, -10)}},
		{"pan and push", repeat(10, Similarity{A: 1.01, TX: -5}), 640, 360, Summary{Mixed, 50, 0, math.Pow(1.01, 10)}},
		// The same pan at a quarter of the size.
		{"small picture", repeat(30, shift(0.5, 0)), 160, 90, Summary{Pan, -15, 0, 1}},
	} {
		got := Summarise(c.steps, c.w, c.h, 24)
		if got.Kind != c.want.Kind {
			t.Errorf("%s: called %s, want %s", c.name, got.Kind, c.want.Kind)
		}
		near(t, c.name+": travel across", got.TravelX, c.want.TravelX, 1e-9)
		near(t, c.name+": travel down", got.TravelY, c.want.TravelY, 1e-9)
		near(t, c.name+": zoom", got.Zoom, c.want.Zoom, 1e-9)
	}
}
