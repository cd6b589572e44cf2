package extract

import (
	"image"
	"testing"
)

// What lets half of the grey through is half-way to it, 126 and 128 in the levels
// of ITU-R BT.601.
func TestOverGrey(t *testing.T) {
	for _, c := range []struct {
		alpha       [4]byte
		luma        [4]byte // of white, 235
		blue        byte    // of 240
		letsThrough bool
	}{
		{[4]byte{255, 255, 255, 255}, [4]byte{235, 235, 235, 235}, 240, false},
		{[4]byte{0, 0, 0, 0}, [4]byte{126, 126, 126, 126}, 128, true},
		{[4]byte{255, 0, 255, 0}, [4]byte{235, 126, 235, 126}, 184, true},
		{[4]byte{51, 255, 255, 255}, [4]byte{148, 235, 235, 235}, 218, true}, // a fifth; four fifths in all
	} {
		f := image.NewYCbCr(image.Rect(0, 0, 2, 2), image.YCbCrSubsampleRatio420)
		for i := range f.Y {
			f.Y[i] = 235
		}
		f.Cb[0], f.Cr[0] = 240, 128
		if overGrey(f, c.alpha[:]) != c.letsThrough || [4]byte(f.Y) != c.luma || f.Cb[0] != c.blue || f.Cr[0] != 128 {
			t.Errorf("alpha %v: luma %v, blue %d, red %d; want %v, %d, 128", c.alpha, f.Y, f.Cb[0], f.Cr[0], c.luma, c.blue)
		}
	}
	if overGrey(image.NewYCbCr(image.Rect(0, 0, 2, 2), image.YCbCrSubsampleRatio420), nil) {
		t.Error("a picture without alpha lets something through")
	}
}

// Of every kind of stored picture that may be clear, a clear one reads as grey.
func TestClearPicturesReadAsGrey(t *testing.T) {
	clear := []string{"-f", "lavfi", "-i", "color=black:s=64x36:r=24:d=0.2,format=rgba,colorchannelmixer=aa=0"}
	for file, coding := range map[string][]string{
		"a.mov":   {"-c:v", "qtrle"},
		"b.mov":   {"-c:v", "prores_ks", "-profile:v", "4444", "-pix_fmt", "yuva444p10le"},
		"c.mkv":   {"-c:v", "ffv1", "-pix_fmt", "yuva420p"},
		"d.png":   {"-frames:v", "1"},
		"e.avi":   {"-c:v", "utvideo", "-pix_fmt", "gbrap"},
		"pal.png": {"-frames:v", "1", "-filter_complex", "[0]split[a][b];[a]palettegen[p];[b][p]paletteuse"},
		"f.mov":   {"-c:v", "png", "-pix_fmt", "ya8"},
	} {
		frames, _ := picturesOf(t, lavfi(t, file, append(clear, coding...)...))
		for _, f := range frames {
			if y := f.Y[18*f.YStride+32]; y < greyLuma-2 || y > greyLuma+2 {
				t.Errorf("%s: luma %d, want %d", file, y, greyLuma)
			}
		}
	}
}
