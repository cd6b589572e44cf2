package extract

import (
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

func TestParsePattern(t *testing.T) {
	for in, want := range map[string]pattern{
		"shot.%04d.png":        {prefix: "shot.", suffix: ".png", width: 4},
		"f%d.jpg":              {prefix: "f", suffix: ".jpg"},
		"shot.[1001-1096].png": {prefix: "shot.", suffix: ".png", width: 4, first: 1001, last: 1096, ranged: true},
		"s[0001-0096].png":     {prefix: "s", suffix: ".png", width: 4, first: 1, last: 96, ranged: true},
		"s[1-96].png":          {prefix: "s", suffix: ".png", first: 1, last: 96, ranged: true},
	} {
		got, ok, err := parsePattern(in)
		if err != nil || !ok || got != want {
			t.Errorf("%s: %+v %v %v", in, got, ok, err)
		}
	}
	for _, in := range []string{"%d%d.png", "a[9-1].png", "a%04d[1-2].png", "a%099d.png"} {
		if _, ok, err := parsePattern(in); !ok || err == nil {
			t.Errorf("%s: want an error", in)
		}
	}
	for _, in := range []string{"clip.mp4", "100%.png", "[a-z].png", "%s.png", "%4d.png"} {
		if _, ok, _ := parsePattern(in); ok {
			t.Errorf("%s: taken for a pattern", in)
		}
	}
}

func FuzzParsePattern(f *testing.F) {
	for _, s := range []string{"shot.%04d.png", "a[1-9].png", "%d", "[0-99999999999999999999]"} {
		f.Add(s, int64(7))
	}
	f.Fuzz(func(t *testing.T, s string, n int64) {
		p, ok, err := parsePattern(s)
		if !ok || err != nil || n < 0 || n >= 1e18 {
			return
		}
		if got, ok := p.number(p.fileName(n)); !ok || got != n {
			t.Fatalf("%q: number of %q is %d, %v", s, p.fileName(n), got, ok)
		}
	})
}

// drawSequence writes PNG pictures with the bars of their place.
func drawSequence(t *testing.T, dir, format string, numbers ...int) {
	t.Helper()
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	for i, n := range numbers {
		drawPNG(t, filepath.Join(dir, fmt.Sprintf(format, n)), 64, 36, i)
	}
}

func drawPNG(t *testing.T, path string, w, h, n int) {
	t.Helper()
	y := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	bars(y, n)
	gray := image.NewGray(y.Rect)
	for i := range gray.Pix {
		gray.SetGray(i%w, i/w, color.Gray{y.Y[i/w*y.YStride+i%w]})
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, gray); err != nil {
		t.Fatal(err)
	}
}

func TestReadSequence(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "100% of %03d")
	drawSequence(t, dir, "shot.%04d.png", 1001, 1002, 1003, 1004, 1005, 1006)
	drawSequence(t, dir, "f%d.png", 8, 9, 10, 11)
	for _, c := range []struct {
		pattern string
		first   int64
		want    []int
	}{
		{"shot.%04d.png", 1001, []int{0, 1, 2, 3, 4, 5}},
		{"shot.[1002-1004].png", 1002, []int{1, 2, 3}},
		{"f%d.png", 8, []int{0, 1, 2, 3}},
		{"f[8-11].png", 8, []int{0, 1, 2, 3}},
		{"shot.1003.png", 0, []int{2}},
	} {
		got, clip, _ := readAll(t, filepath.Join(dir, c.pattern), Options{FPS: Rate{25, 1}})
		if !reflect.DeepEqual(got, c.want) || clip.First != c.first || clip.Rate != (Rate{25, 1}) || clip.Name != c.pattern {
			t.Errorf("%s: frames %v, first %d, rate %v, name %s", c.pattern, got, clip.First, clip.Rate, clip.Name)
		}
	}
	if _, _, warnings := readAll(t, filepath.Join(dir, "f%d.png"), Options{}); len(warnings) != 1 {
		t.Errorf("no rate given: warnings %q", warnings)
	}
}

func TestSequenceProblems(t *testing.T) {
	dir := t.TempDir()
	drawSequence(t, dir, "gap.%04d.png", 1, 2, 5, 6, 8)
	drawSequence(t, dir, "size.%02d.png", 1, 2, 3)
	drawPNG(t, filepath.Join(dir, "size.04.png"), 96, 54, 3)
	if err := os.WriteFile(filepath.Join(dir, "text.01.png"), []byte("words"), 0o644); err != nil {
		t.Fatal(err)
	}

	var gap *GapError
	_, err := Open(context.Background(), filepath.Join(dir, "gap.%04d.png"), Options{})
	if !errors.As(err, &gap) || !reflect.DeepEqual(gap.Missing, []NumberRange{{3, 4}, {7, 7}}) {
		t.Errorf("gap: %v", err)
	}
	_, err = Open(context.Background(), filepath.Join(dir, "gap.[0001-0003].png"), Options{})
	if !errors.As(err, &gap) || !reflect.DeepEqual(gap.Missing, []NumberRange{{3, 3}}) {
		t.Errorf("gap at the end of a range: %v", err)
	}

	err = Read(context.Background(), filepath.Join(dir, "size.%02d.png"), Options{}, drain)
	var size *SizeChangeError
	if !errors.As(err, &size) || size.Number != 4 {
		t.Errorf("size change: %v", err)
	}
	for name, kind := range map[string]InputKind{
		"text.%02d.png": Text, "none.%04d.png": NoMatch, "gap.[1-3].png": NoMatch, "gap.####.png": BadPattern, "gap.$F4.png": BadPattern,
		"gap.*.png": BadPattern, "a.%04d.exr": BadPattern, "a.%04d.%04d.png": BadPattern,
	} {
		wantKind(t, filepath.Join(dir, name), kind)
	}
}

// drain reads a clip to its end.
func drain(r *Reader) error {
	f := image.NewYCbCr(image.Rectangle{Max: r.Clip().Work}, image.YCbCrSubsampleRatio420)
	for {
		if err := r.Next(f); err != nil {
			return ignoreEOF(err)
		}
	}
}

// wantKind checks that a path cannot be used, and why.
func wantKind(t *testing.T, path string, kind InputKind) {
	t.Helper()
	err := Read(context.Background(), path, Options{}, drain)
	var in *InputError
	if !errors.As(err, &in) || in.Kind != kind || HintOf(err) == "" {
		t.Errorf("%s: %v, want %s", SafeName(path), err, kind)
	}
}

func TestDamagedPictureOfASequenceKeepsItsPlace(t *testing.T) {
	dir := t.TempDir()
	drawSequence(t, dir, "s.%02d.png", 1, 2, 3, 4, 5)
	path := filepath.Join(dir, "s.03.png")
	if err := os.Truncate(path, 60); err != nil {
		t.Fatal(err)
	}
	got, _, warnings := readAll(t, filepath.Join(dir, "s.%02d.png"), Options{FPS: Rate{24, 1}})
	if len(got) != 5 || got[0] != 0 || got[1] != 1 || got[3] != 3 || got[4] != 4 {
		t.Errorf("frames %v", got)
	}
	if len(warnings) == 0 {
		t.Error("no warning")
	}
}
