package extract

import (
	"context"
	"image"
	"io"
	"path/filepath"
	"testing"
)

// bars draws frame n as the bits of n in eight bright or dark columns.
func bars(f *image.YCbCr, n int) {
	w := f.Rect.Dx()
	for y := range f.Rect.Dy() {
		for x := range w {
			v := byte(40)
			if n>>(x*8/w)&1 == 1 {
				v = 210
			}
			f.Y[y*f.YStride+x] = v
		}
	}
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = 128, 128
	}
}

// readBars reads the number that bars drew.
func readBars(f *image.YCbCr) int {
	n, w, h := 0, f.Rect.Dx(), f.Rect.Dy()
	for bit := range 8 {
		x := (2*bit + 1) * w / 16
		if f.Y[h/2*f.YStride+x] > 125 {
			n |= 1 << bit
		}
	}
	return n
}

func writeBars(t *testing.T, name string, frames int, w VideoOptions) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	n := 0
	err := WriteVideo(context.Background(), path, w, func(f *image.YCbCr) error {
		if n == frames {
			return io.EOF
		}
		bars(f, n)
		n++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// readAll reads the numbers of a clip of bars.
func readAll(t *testing.T, path string, o Options) (numbers []int, clip Clip, warnings []string) {
	t.Helper()
	err := Read(context.Background(), path, o, func(r *Reader) error {
		numbers, clip = nil, r.Clip()
		f := image.NewYCbCr(image.Rectangle{Max: clip.Work}, image.YCbCrSubsampleRatio420)
		for {
			err := r.Next(f)
			if err == io.EOF {
				warnings = r.Warnings()
				return nil
			}
			if err != nil {
				return err
			}
			numbers = append(numbers, readBars(f))
		}
	})
	if err != nil {
		t.Fatalf("%s: %v", filepath.Base(path), err)
	}
	return numbers, clip, warnings
}

func TestWriteThenReadGivesEveryFrameOnce(t *testing.T) {
	for _, c := range []struct {
		name string
		w    VideoOptions
	}{
		{"a.mp4", VideoOptions{Width: 320, Height: 180}},
		{"b.mp4", VideoOptions{Width: 64, Height: 36, Codec: H264Lossless, Rate: Rate{30000, 1001}, Preset: "ultrafast"}},
		{"c.mkv", VideoOptions{Width: 321, Height: 181, Codec: FFV1, Rate: Rate{25, 2}}},
	} {
		path := writeBars(t, c.name, 30, c.w)
		got, clip, warnings := readAll(t, path, Options{})
		if len(got) != 30 || len(warnings) != 0 {
			t.Errorf("%s: %d frames, warnings %q", c.name, len(got), warnings)
		}
		for i, n := range got {
			if n != i {
				t.Errorf("%s: frame %d shows %d", c.name, i, n)
			}
		}
		if c.w.Rate.IsZero() {
			c.w.Rate = Rate{24, 1}
		}
		if clip.Rate != c.w.Rate || clip.Width != c.w.Width || clip.Height != c.w.Height {
			t.Errorf("%s: %v %d×%d", c.name, clip.Rate, clip.Width, clip.Height)
		}
	}
}
