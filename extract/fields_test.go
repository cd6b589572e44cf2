package extract

import (
	"context"
	"errors"
	"image"
	"io"
	"strings"
	"testing"
)

// barWidth and barStep are of an upright bar that goes to the right, in pixels and
// pixels a field. Both are small against the picture, 128 by 64.
const barWidth, barStep = 12, 2

// woven is a source of 20 frames of which the even lines show the bar before the
// odd ones do.
func woven(mode string) []string {
	bar := "geq=lum='if(between(X-16-2*N,0,11),235,16)':cb=128:cr=128"
	return []string{"-f", "lavfi", "-i", "color=s=128x64:r=50:d=0.8," + bar, "-vf", "tinterlace=" + mode, "-pix_fmt", "yuv420p"}
}

// An interlaced clip is read as its earlier fields: no line of a bar that moves
// lies beside the others, and it is where it was when the frame began.
func TestFieldsAreTakenApart(t *testing.T) {
	for _, c := range []struct {
		file, mode string
		coding     []string
		woven      bool
	}{
		{"top.mp4", "interleave_top", []string{"-flags", "+ildct+ilme", "-c:v", "libx264", "-qp", "8", "-x264opts", "tff=1"}, true},
		{"bottom.mov", "interleave_bottom", []string{"-flags", "+ildct+ilme", "-top", "0", "-pix_fmt", "yuv422p10le", "-c:v", "prores_ks"}, true},
		{"pictures.avi", "interleave_top", []string{"-flags", "+ildct+ilme", "-c:v", "mpeg4", "-q:v", "1"}, true},
		{"container.mov", "interleave_top", []string{"-field_order", "tt", "-c:v", "qtrle"}, true},
		{"marked.mkv", "interleave_top", []string{"-c:v", "ffv1"}, true},
		{"whole.mp4", "drop_odd", []string{"-c:v", "libx264", "-qp", "8"}, false},
	} {
		frames, warnings := picturesOf(t, lavfi(t, c.file, append(woven(c.mode), c.coding...)...))
		if said := strings.Contains(strings.Join(warnings, "\n"), "interlaced"); said != c.woven {
			t.Errorf("%s: warnings %q", c.file, warnings)
		}
		if len(frames) != 20 {
			t.Errorf("%s: %d frames, want 20", c.file, len(frames))
		}
		for n, f := range frames {
			want := 16 + 2*barStep*n
			if c.mode == "drop_odd" {
				want += barStep
			}
			if from, to := barOf(f); from < want-1 || to > want+1 {
				t.Errorf("%s: on frame %d lines of the bar begin at %d to %d, want %d", c.file, n, from, to, want)
				break
			}
		}
	}
}

// barOf returns where the bar begins in the lines of a picture, leftmost and
// rightmost.
func barOf(f *image.YCbCr) (from, to int) {
	from, to = f.Rect.Dx(), -1
	for y := range f.Rect.Dy() {
		row, x := f.Y[y*f.YStride:], 0
		for x < f.Rect.Dx() && row[x] < 126 {
			x++
		}
		from, to = min(from, x), max(to, x)
	}
	return from, to
}

// picturesOf reads a clip.
func picturesOf(t *testing.T, path string) (frames []*image.YCbCr, warnings []string) {
	t.Helper()
	err := Read(context.Background(), path, Options{}, func(r *Reader) error {
		frames = nil
		for {
			f := newPicture(r.Clip().Work, false).img
			if err := r.Next(f); errors.Is(err, io.EOF) {
				warnings = r.Warnings()
				return nil
			} else if err != nil {
				return err
			}
			frames = append(frames, f)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return frames, warnings
}
