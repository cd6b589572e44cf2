package main

import (
	"math"
	"testing"
)

func TestMedian(t *testing.T) {
	for _, c := range []struct {
		list []float64
		want float64
	}{{[]float64{4}, 4}, {[]float64{3, -1}, 1}, {[]float64{9, 1, 2}, 2}, {[]float64{4, 1, 3, 2}, 2.5}} {
		if got := median(c.list); got != c.want {
			t.Errorf("median(%v) = %g, want %g", c.list, got, c.want)
		}
	}
	if !math.IsNaN(median(nil)) {
		t.Error("the median of nothing is a number")
	}
}

func TestOffsets(t *testing.T) {
	o := Offsets{-3, -1, 0, 0, 1, 2}
	if got := o.Within(1); got != 4.0/6 {
		t.Errorf("within 1: %g", got)
	}
	if got := o.Within(2); got != 5.0/6 {
		t.Errorf("within 2: %g", got)
	}
	if got := o.Median(); got != 0 {
		t.Errorf("median %g", got)
	}
}

func TestF1(t *testing.T) {
	// Precision 3/4 and recall 3/5: F1 = 2*0.75*0.6/1.35.
	c := Counts{True: 5, Found: 4, Matched: 3}
	if got, want := c.F1(), 2*0.75*0.6/1.35; math.Abs(got-want) > 1e-12 {
		t.Errorf("F1 = %g, want %g", got, want)
	}
}
