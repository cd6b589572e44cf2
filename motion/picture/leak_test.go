//go:build matprofile

package picture

import (
	"image"
	"testing"

	"gocv.io/x/gocv"
)

// TestNothingLeftOpen counts what is open outside Go's heap, which only a build
// with -tags matprofile can.
func TestNothingLeftOpen(t *testing.T) {
	before := gocv.MatProfile.Count()
	p, err := New(33, 17)
	if err != nil {
		t.Fatal(err)
	}
	if gocv.MatProfile.Count() <= before {
		t.Fatal("an open picture is not counted: the count proves nothing")
	}
	for range 3 {
		if err := p.Set(image.NewYCbCr(image.Rect(0, 0, 33, 17), image.YCbCrSubsampleRatio420)); err != nil {
			t.Error(err)
		}
		p.Noise()
		p.Gray()
	}
	p.Close()
	if _, err := New(0, 17); err == nil {
		t.Error("a picture without width is made")
	}
	if n := gocv.MatProfile.Count() - before; n != 0 {
		t.Errorf("%d matrices left open", n)
	}
}
