package main

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"holdfast/extract"
	"holdfast/sheet"
)

// numberSize is the size of a frame's number on 360 lines, pixels, and numberBox
// where it stands.
const numberSize = 20

var numberBox = image.Rect(10, 8, 70, 38)

// digits are the ten digits as the font draws them.
func digits(t *testing.T) (list [10]*image.Gray, advance int) {
	t.Helper()
	parsed, err := opentype.Parse(gobold.TTF)
	if err != nil {
		t.Fatal(err)
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: numberSize, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		t.Fatal(err)
	}
	a, _ := face.GlyphAdvance('0')
	advance = a.Round()
	for d := range list {
		list[d] = image.NewGray(image.Rect(0, 0, advance, numberSize))
		drawer := font.Drawer{Dst: list[d], Src: image.NewUniform(color.White), Face: face, Dot: fixed.P(0, numberSize-3)}
		drawer.DrawString(fmt.Sprint(d))
	}
	return list, advance
}

// readNumber finds the four digits that fit best anywhere in the plate.
func readNumber(f *image.YCbCr, templates [10]*image.Gray, advance int) int {
	best, bestOff := 0, 1<<62
	for y := numberBox.Min.Y - 4; y+numberSize < numberBox.Max.Y+4; y++ {
		for x := numberBox.Min.X; x+4*advance < numberBox.Max.X+4; x++ {
			number, off := 0, 0
			for cell := range 4 {
				d, o := readDigit(f, x+cell*advance, y, templates)
				number, off = 10*number+d, off+o
			}
			if off < bestOff {
				best, bestOff = number, off
			}
		}
	}
	return best
}

func readDigit(f *image.YCbCr, x, y int, templates [10]*image.Gray) (digit, off int) {
	off = 1 << 62
	for d, tmpl := range templates {
		sum := 0
		for ty := range tmpl.Rect.Dy() {
			for tx := range tmpl.Rect.Dx() {
				diff := int(f.Y[f.YOffset(x+tx, y+ty)]) - (60 + int(tmpl.GrayAt(tx, ty).Y)*175/255)
				sum += diff * diff
			}
		}
		if sum < off {
			digit, off = d, sum
		}
	}
	return digit, off
}

// TestMarkupNumbers reads the number drawn on every frame of a marked-up clip
// back from its pixels.
func TestMarkupNumbers(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Skip("ffmpeg is not installed")
	}
	dir := t.TempDir()
	clip, out := filepath.Join(dir, "walk.mp4"), filepath.Join(dir, "out.mp4")
	make := exec.Command("ffmpeg", "-v", "error", "-f", "lavfi", "-i", "testsrc2=s=640x360:r=24:d=3", "-f", "lavfi", "-i", "sine=440:d=3",
		"-c:v", "libx264", "-preset", "ultrafast", "-c:a", "aac", clip)
	if said, err := make.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"holdfast", "markup", "--quiet", "--first-frame", "985", clip, out}, &stdout, &stderr); code != 0 || stdout.Len()+stderr.Len() > 0 {
		t.Fatalf("exit %d, %s%s", code, stdout.String(), stderr.String())
	}
	templates, advance := digits(t)
	n := 0
	err := extract.Read(context.Background(), out, extract.Options{WorkArea: 640 * 360}, func(r *extract.Reader) error {
		if c := r.Clip(); c.Width != 640 || c.Height != 360 || c.Rate != (extract.Rate{Num: 24, Den: 1}) || !c.Sound || c.PixelFormat != "yuv420p" {
			t.Errorf("the clip is %+v", c)
		}
		f := image.NewYCbCr(image.Rect(0, 0, 640, 360), image.YCbCrSubsampleRatio420)
		for n = 0; ; n++ {
			if err := r.Next(f); err == io.EOF {
				return nil
			} else if err != nil {
				return err
			}
			if got := readNumber(f, templates, advance); got != 985+n {
				t.Errorf("frame %d shows %d", 985+n, got)
			}
		}
	})
	if err != nil || n != 72 {
		t.Errorf("%d frames, %v", n, err)
	}
	if code := run([]string{"holdfast", "markup", "--quiet", clip, out}, &stdout, &stderr); code != exitOutput {
		t.Errorf("over an old file: exit %d", code)
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 2 {
		t.Errorf("%v, %v", entries, err)
	}
}

// TestMarkupSheet takes the numbers of a sheet of the same clip, and of no other.
func TestMarkupSheet(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		t.Skip("ffmpeg is not installed")
	}
	dir := t.TempDir()
	clip, other, made, out := filepath.Join(dir, "a.mp4"), filepath.Join(dir, "b.mp4"), filepath.Join(dir, "a.json"), filepath.Join(dir, "out.mp4")
	for path, source := range map[string]string{clip: "testsrc2=s=160x90:r=24:d=1", other: "testsrc=s=160x90:r=24:d=1"} {
		if said, err := exec.Command("ffmpeg", "-v", "error", "-f", "lavfi", "-i", source, "-c:v", "libx264", "-preset", "ultrafast", path).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, said)
		}
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"holdfast", "sheet", "--quiet", "--as", "json", clip}, &stdout, &stderr); code != 0 {
		t.Fatal(stderr.String())
	}
	if err := os.WriteFile(made, stdout.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		args []string
		code int
	}{
		{[]string{"--sheet", made, other, out}, exitUsage},
		{[]string{"--sheet", made, "--first-frame", "7", clip, out}, exitUsage},
		{[]string{clip, filepath.Join(dir, "out.mov")}, exitUsage},
		{[]string{clip}, exitUsage},
		{[]string{"--sheet", made, clip, filepath.Join(dir, "none", "out.mp4")}, exitOutput},
		{[]string{"--sheet", made, "--thirds", clip, out}, exitDone},
	} {
		stderr.Reset()
		if code := run(append([]string{"holdfast", "markup", "--quiet"}, test.args...), &stdout, &stderr); code != test.code {
			t.Errorf("%q: exit %d, want %d: %s", test.args, code, test.code, stderr.String())
		}
	}
}

func TestArcsNamed(t *testing.T) {
	known := []sheet.Point{
		{Name: "figure 1", Figure: 1, Start: 1}, {Name: "figure 2", Figure: 2, Start: 9},
		{Name: "head", Start: 1}, {Name: "head", Start: 9},
	}
	for _, c := range []struct {
		names []string
		want  int
	}{{nil, 0}, {[]string{"figures"}, 2}, {[]string{"figure 2"}, 1}, {[]string{"head"}, 2}, {[]string{"figures", "head"}, 4}} {
		if list, err := arcsNamed(c.names, known); err != nil || len(list) != c.want {
			t.Errorf("%q: %v, %v", c.names, list, err)
		}
	}
	for _, points := range [][]sheet.Point{known, nil} {
		_, err := arcsNamed([]string{"figures", "hand\x1b"}, points)
		if code, hint := judge(err); code != 2 || hint == "" || strings.Contains(err.Error(), "\x1b") {
			t.Errorf("a hand nobody showed gives %v", err)
		}
	}
}
