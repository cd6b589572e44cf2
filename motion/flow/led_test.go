package flow

import (
	"image"
	"math"
	"testing"
)

// TestCalcLed: led by a lead some pixels off, flow finds a shift of half the
// picture to a seventh of a pixel, and what leaves goes by the lead.
func TestCalcLed(t *testing.T) {
	const w, h, dx, dy = 160, 96, 71.5, -9.25
	far := noise(2*w, h, 0, 0)
	from := far.SubImage(image.Rect(80, 0, 80+w, h)).(*image.Gray)
	moved := noise(2*w, h, dx-64, dy)
	to := moved.SubImage(image.Rect(80-64, 0, 80-64+w, h)).(*image.Gray)
	from.Rect, to.Rect = image.Rect(0, 0, w, h), image.Rect(0, 0, w, h)
	d, err := NewDIS(Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	var f Field
	lead := image.Pt(68, -8)
	if err := d.CalcLed(&f, from, to, lead); err != nil {
		t.Fatal(err)
	}
	sum, n := 0.0, 0
	for y := 20; y < h-12; y++ {
		for x := 12; x < w-68-12; x++ {
			u, v := f.At(x, y)
			sum, n = sum+math.Hypot(float64(u)-dx, float64(v)-dy), n+1
		}
	}
	if mean := sum / float64(n); !(mean < 0.15) {
		t.Errorf("mean error of %.3f pixels", mean)
	}
	if u, v := f.At(w-1, h-1); u != 68 || v != -8 {
		t.Errorf("what leaves goes by %g, %g, want the lead", u, v)
	}
	if err := d.CalcLed(&f, from, to, image.Pt(w-4, 0)); err == nil {
		t.Error("a lead that leaves four pixels is taken")
	}
}
