package draw

import (
	"bytes"
	"image"
	"image/png"
	"testing"
)

// footAt is the middle of what stands in a column of pixels, green or red against
// the grey ground; ok is false where nothing does.
func footAt(picture image.Image, x int) (y float64, red, ok bool) {
	sum, n := 0, 0
	for y := range picture.Bounds().Dy() {
		r, _, b, _ := picture.At(x, y).RGBA()
		if apart := int(r>>8) - int(b>>8); apart > 60 || apart < -40 {
			sum, n, red = sum+y, n+1, apart > 0
		}
	}
	return float64(sum) / float64(max(n, 1)), red, n > 0
}

func TestAcrossHasTimeFromLeftToRight(t *testing.T) {
	const frames, third = 90, 30
	s, st := made(frames)
	band, err := Across(s, st)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(band.PNG))
	if err != nil {
		t.Fatal(err)
	}
	if size := picture.Bounds().Size(); size != image.Pt(frames, acrossTall) || band.Start != 1001 || band.End != 1090 {
		t.Fatalf("%v pixels for frames %d–%d", size, band.Start, band.End)
	}
	// A straight line through two of the places gives the others.
	left, _, _ := footAt(picture, 0)
	right, _, _ := footAt(picture, frames-1)
	for f := range frames {
		x, stands := where(f, third)
		y, red, ok := footAt(picture, f)
		if ok != stands || red != (f >= third && f < 2*third) {
			t.Errorf("frame %d: something stands: %v, slides: %v", f, ok, red)
		}
		if want := left + (right-left)*float64(x-60)/140; stands && (y < want-2 || y > want+2) {
			t.Errorf("frame %d: the foot is at %.1f, want %.1f", f, y, want)
		}
	}
}

// A thinned strip shows each of its rows for as many frames as it stands for.
func TestAcrossOfEverySecondFrame(t *testing.T) {
	s, st := made(90)
	for i := range 45 {
		st.Rows[i] = st.Rows[2*i]
	}
	st.Rows, st.Every = st.Rows[:45], 2
	band, err := Across(s, st)
	if err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(band.PNG))
	if err != nil || picture.Bounds().Dx() != 90 || band.End != 1090 {
		t.Fatalf("%v wide, to %d: %v", picture.Bounds(), band.End, err)
	}
	for _, f := range []int{0, 1, 88, 89} {
		if _, _, ok := footAt(picture, f); !ok {
			t.Errorf("frame %d is empty", f)
		}
	}
}
