package main

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"

	"holdfast/motion/scene"
)

// A timing says what the speed table is made of.
type timing struct {
	sizes        []image.Point // none means speedSizes
	runs, frames int
	program      string
	care         care
}

// speedRate is the demo clip's rate, frames a second.
const speedRate = 24

// speedSizes are a small clip, the usual one and a large one.
var speedSizes = []image.Point{{X: 640, Y: 360}, {X: 1920, Y: 1080}, {X: 3840, Y: 2160}}

// What makes decoding as dear as that of filmed clips, whose bits go mostly
// into grain: at the encoder's usual quality, grain of three levels is smoothed
// away and leaves 2 Mb a second at 1080p; five levels leave 15, about what a
// telephone records (common practice, no source). The table says what came out.
const (
	speedNoise = 5 // levels of luma
	speedCRF   = 23
)

// speed times the program against ffmpeg alone, and flow against its
// yardstick, and prints a table of each.
func speed(ctx context.Context, t *timing, stdout, stderr io.Writer) error {
	if _, err := os.Stat(t.program); err != nil {
		return fmt.Errorf("%w: build it with go build -o bin/holdfast ./cmd/holdfast", err)
	}
	dir, err := os.MkdirTemp("", "holdfast-bench-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	sizes := t.sizes
	if sizes == nil {
		sizes = speedSizes
	}
	out := newTable("SPEED, medians", 2, "clip", "what", "frames", "Mb/s", "runs", "wall ms\na frame", "CPU ms\na frame", "peak\nMB", "wall\nratio", "lowest to\nhighest")
	for i, size := range sizes {
		if i > 0 {
			out.AppendSeparator()
		}
		fmt.Fprintf(stderr, "drawing and timing %s\n", sizeName(size))
		if err := t.time(ctx, out, dir, size); err != nil {
			return fmt.Errorf("at %s: %w", sizeName(size), err)
		}
	}
	if err := render(stdout, out); err != nil {
		return err
	}
	return reportFlow(ctx, stdout)
}

// time adds the rows of one size.
func (t *timing) time(ctx context.Context, out table.Writer, dir string, size image.Point) error {
	clip := filepath.Join(dir, sizeName(size)+".mp4")
	if err := t.draw(ctx, clip, size); err != nil {
		return err
	}
	defer os.Remove(clip)
	alone, err := decodeOnly(ctx, clip, t.care)
	if err != nil {
		return err
	}
	ours := slices.Concat([]string{t.program, "sheet", "--no-cache", "--as", "json", "--quiet"}, t.care.options(), []string{clip})
	c, err := inTurns(ctx, ours, alone, t.runs)
	if err != nil {
		return err
	}
	rate, err := t.megabits(clip)
	if err != nil {
		return err
	}
	line := func(what string, u resources, rest ...any) {
		n := float64(t.frames)
		out.AppendRow(append(table.Row{sizeName(size), what, t.frames, rate, t.runs,
			fmt.Sprintf("%.2f", u.wall*1000/n), fmt.Sprintf("%.2f", u.cpu*1000/n), fmt.Sprintf("%.0f", u.memory/1e6)}, rest...))
	}
	line("ffmpeg, decode and scale", c.alone, "1.00")
	line(strings.Join(append([]string{"holdfast sheet"}, t.care.options()...), " "), c.ours, fmt.Sprintf("%.2f", c.ratio), fmt.Sprintf("%.2f to %.2f", c.lowest, c.highest))
	return nil
}

// megabits is what a second of a clip takes.
func (t *timing) megabits(clip string) (string, error) {
	info, err := os.Stat(clip)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%.1f", float64(info.Size())*8/1e6/(float64(t.frames)/speedRate)), nil
}

// draw writes the demo clip at a size, with grain, cut or gone through again
// to the number of frames.
func (t *timing) draw(ctx context.Context, path string, size image.Point) error {
	sc, err := scene.DemoSize(size)
	if err != nil {
		return err
	}
	sc, err = sc.With(scene.Variant{Condition: scene.Condition{Noise: speedNoise}, Seed: 1})
	if err != nil {
		return err
	}
	n, p := 0, ofScene(sc)
	return writeFrames(ctx, path, &p, speedCRF, func(dst *image.YCbCr) error {
		if n == t.frames {
			return io.EOF
		}
		n++
		return sc.Draw(dst, (n-1)%sc.Frames)
	})
}

// A comparison is what runs of two programs in turns came to: medians, and the
// ratio of their wall times run by run.
type comparison struct {
	ours, alone            resources
	ratio, lowest, highest float64
}

// inTurns runs ours and alone in turns, so that what else the machine does
// falls on both, after one run of each that fills the caches.
func inTurns(ctx context.Context, ours, alone []string, runs int) (comparison, error) {
	var a, b []resources
	for i := range runs + 1 {
		x, err := runProcess(ctx, ours)
		if err != nil {
			return comparison{}, err
		}
		y, err := runProcess(ctx, alone)
		if err != nil {
			return comparison{}, err
		}
		if i > 0 {
			a, b = append(a, x), append(b, y)
		}
	}
	return summarise(a, b)
}

func summarise(a, b []resources) (comparison, error) {
	var ratios []float64
	for i := range a {
		if b[i].wall <= 0 {
			return comparison{}, errors.New("a run took no time")
		}
		ratios = append(ratios, a[i].wall/b[i].wall)
	}
	c := comparison{ours: medianResources(a), alone: medianResources(b), ratio: median(ratios), lowest: ratios[0], highest: ratios[0]}
	for _, r := range ratios {
		c.lowest, c.highest = min(c.lowest, r), max(c.highest, r)
	}
	return c, nil
}
