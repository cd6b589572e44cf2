package sheet

import (
	"math"
	"testing"
)

// The ticks of drawings whose places on the way are known from a formula.
func TestTimingChartOfKnownWays(t *testing.T) {
	halfCosine := func(v float64) float64 { return (1 - math.Cos(math.Pi*v)) / 2 }
	halves := func(v float64) float64 { return math.Exp2(8 * (v - 1)) } // each half of what is left
	even := func(v float64) float64 { return v }
	for name, way := range map[string]func(float64) float64{"half a cosine": halfCosine, "halves": halves, "even": even} {
		for _, up := range []int{1, 2} {
			const n, first = 8, 43
			s := &Spacing{}
			for i := 1; i <= n; i++ {
				s.Drawings = append(s.Drawings, first+up*(i-1))
				from := way(float64(i-1) / n)
				if i == 1 {
					from = 0
				}
				s.Travel = append(s.Travel, 0.3*(way(float64(i)/n)-from)/float64(up))
			}
			b := NewMove(1, 0, first, first+n*up-1, first+1, 1)
			b.Texture = &Texture{Spacing: s}
			c, ok := b.TimingChart()
			if !ok || c.From != first-1 || len(c.Ticks) != n {
				t.Fatalf("%s, up for %d: %v", name, up, c)
			}
			for i, tick := range c.Ticks {
				if want := way(float64(i+1) / n); tick.Frame != first+up*i || math.Abs(tick.Share-want) > 1e-9 {
					t.Errorf("%s, up for %d: drawing %d is frame %d at %g, want %g", name, up, i, tick.Frame, tick.Share, want)
				}
			}
		}
	}
}

func TestNoTimingChart(t *testing.T) {
	still := NewMove(1, 0, 1, 9, 3, 0)
	still.Texture = &Texture{Spacing: &Spacing{Drawings: []int{1, 2}, Travel: []float64{0, 0}}}
	one := NewMove(1, 0, 1, 9, 3, 0)
	one.Texture = &Texture{Spacing: &Spacing{Drawings: []int{1}, Travel: []float64{1}}}
	stepped := NewMove(1, 0, 1, 9, 3, 0)
	stepped.Texture = &Texture{}
	for i, b := range []Beat{NewHold(1, 0, 1, 9, HoldFrozen), stepped, still, one} {
		if c, ok := b.TimingChart(); ok {
			t.Errorf("%d has %v", i, c)
		}
	}
}
