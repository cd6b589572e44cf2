package main

import (
	"bytes"
	"context"
	"flag"
	"image"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"holdfast/cmd/assemble"
	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/flow"
	"holdfast/motion/scene"
	"holdfast/sheet"
)

var update = flag.Bool("update", false, "write the golden files anew")

// goldenSize is the size at which golden clips are drawn and displayed.
var goldenSize = image.Pt(480, 270)

// goldenScene returns a scene of the catalogue, or the demo.
func goldenScene(t *testing.T, name string) *scene.Scene {
	t.Helper()
	demo, err := scene.DemoSize(goldenSize)
	if err != nil {
		t.Fatal(err)
	}
	list, err := scene.Catalogue(goldenSize)
	if err != nil {
		t.Fatal(err)
	}
	for _, sc := range append(list, demo) {
		if sc.Name == name {
			return sc
		}
	}
	t.Fatalf("no scene is called %s", name)
	return nil
}

// drawing gives the frames of a scene as a reader gives those of a clip.
type drawing func(dst *image.YCbCr) error

func (d drawing) Next(dst *image.YCbCr) error { return d(dst) }

// sheetOfScene measures a drawn clip as it is, with no coding in between, so that
// what comes out hangs on this program alone.
func sheetOfScene(t *testing.T, sc *scene.Scene) *sheet.Sheet {
	t.Helper()
	return measuredScene(t, sc).Sheet()
}

func measuredScene(t *testing.T, sc *scene.Scene) *assemble.Measured {
	t.Helper()
	rate, size := extract.Rate(sc.Rate), image.Pt(sc.Width, sc.Height)
	result, err := motion.Measure(context.Background(), drawing(drawAll(sc, &progress{})),
		motion.Options{Size: size, Rate: rate.Float()})
	if err != nil {
		t.Fatal(err)
	}
	m := assemble.New(extract.Clip{
		Name: sc.Name + ".mp4", Width: size.X, Height: size.Y, Work: size, Rate: rate, SourceRate: rate,
	}, result)
	m.Tool, m.SHA256, m.First = sheet.Tool{Name: "holdfast", Version: "golden"}, strings.Repeat("0", 64), 1
	return m
}

// TestGoldenSheets compares whole sheets of small drawn clips, in every form,
// byte for byte with the golden files, whatever the number of threads. They say
// what a change does to a sheet, not that all in it is true; that other tests
// do. -update writes them anew.
func TestGoldenSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("draws and measures three clips twice")
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, name := range []string{"lamplighter", "camera-mixed", "cuts"} {
		t.Run(name, func(t *testing.T) {
			for _, threads := range []int{1, 3} {
				flow.SetThreads(threads)
				runtime.GOMAXPROCS(threads)
				s := sheetOfScene(t, goldenScene(t, name))
				for _, f := range formats {
					text, err := f.render(s, sheet.DefaultWidth)
					if err != nil {
						t.Fatal(err)
					}
					compareGolden(t, name+f.suffix, threads, text)
				}
			}
		})
	}
}

// compareGolden compares text with a golden file, or writes that anew with what
// one thread makes.
func compareGolden(t *testing.T, name string, threads int, text []byte) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "clips", name)
	if *update && threads == 1 {
		if err := os.WriteFile(path, text, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(text, want) {
		t.Errorf("with %d threads %s differs from line %d on; go test ./cmd/holdfast -run Golden -update writes it anew",
			threads, name, firstDifference(text, want))
	}
}

// firstDifference is the number of the first line that is not the same.
func firstDifference(a, b []byte) int {
	x, y := bytes.Split(a, []byte("\n")), bytes.Split(b, []byte("\n"))
	for i := range min(len(x), len(y)) {
		if !bytes.Equal(x[i], y[i]) {
			return i + 1
		}
	}
	return min(len(x), len(y)) + 1
}
