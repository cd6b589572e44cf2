package motion

import (
	"context"
	"image"
	"io"
	"testing"
)

// twoSets is a Source of two pictures with nothing in common, cut on a frame.
type twoSets struct{ next, cut, frames int }

func (s *twoSets) Next(dst *image.YCbCr) error {
	if s.next == s.frames {
		return io.EOF
	}
	for i := range dst.Y {
		x, y := i%dst.YStride, i/dst.YStride
		v := 60 + 40*((x/9+y/7)%3)
		if s.next >= s.cut {
			v = 220 - 35*((x/5+2*y/11)%4)
		}
		dst.Y[i] = uint8(v)
	}
	for i := range dst.Cb {
		dst.Cb[i], dst.Cr[i] = 110, 140
		if s.next >= s.cut {
			dst.Cb[i], dst.Cr[i] = 150, 100
		}
	}
	s.next++
	return nil
}

// A cut is certain only some frames after it. Where a stretch fills up in
// between, the frames from the cut on must still be there.
func TestCutAtTheEndOfAStretch(t *testing.T) {
	for cut := stretchFrames - 12; cut <= stretchFrames+12; cut++ {
		src := &twoSets{cut: cut, frames: stretchFrames + 40}
		r, err := Measure(context.Background(), src, Options{Size: image.Pt(64, 48), Rate: 24})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Shots) != 2 || r.Shots[1].Start != cut || r.Shots[0].End != cut-1 || r.Frames != src.frames || len(r.Curve.Motion) != src.frames {
			t.Errorf("cut on %d: shots %+v, %d values for %d frames", cut, r.Shots, len(r.Curve.Motion), r.Frames)
		}
	}
}

// At very high rates a third of a second is more frames than a stretch.
func TestCutAtAHighRate(t *testing.T) {
	src := &twoSets{cut: 400, frames: 700}
	r, err := Measure(context.Background(), src, Options{Size: image.Pt(64, 48), Rate: 2000})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Shots) != 2 || r.Shots[1].Start != 400 || r.Frames != 700 {
		t.Errorf("shots %+v of %d frames, want a cut on 400 of 700", r.Shots, r.Frames)
	}
}
