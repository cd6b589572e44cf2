package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"os"

	"holdfast/extract"
	"holdfast/motion/scene/solid"
	"holdfast/sheet"
	"holdfast/sheet/compare"
)

// directions are recordings filmed twice: from the side and turned, as another
// figure.
var directions = []struct {
	recording string
	start     float64 // seconds into it
	turn      float64 // degrees of the second
}{
	{"jump", 0, 40}, {"kick", 0, 50}, {"01_01", 1.2, 60}, {"131_01", 1, 40}, {"131_03", 2.2, 50}, {"dance_a", 0, 70}, {"stealthy_walk", 0, 40},
}

// lateSeconds is how much later into the recording the second film begins.
const lateSeconds = 0.5

// compareDirections films each recording from two directions with two figures,
// the second time from a little later on, and prints on how many frames the two
// are lined up within two frames; and which films of two recordings are taken
// for one another.
func compareDirections(ctx context.Context, size image.Point, w io.Writer) error {
	if _, err := os.Stat(recordings); err != nil {
		_, err := fmt.Fprintf(w, "no recordings in %s: nothing is filmed from two directions\n", recordings)
		return err
	}
	first, second, err := filmAll(ctx, size)
	if err != nil {
		return err
	}
	t := newTable("COMPARE: recorded people filmed from two directions, the second half a second later", 1,
		"recording", "likeness", "offset", "beats", "frames", "within 2")
	var all, strangers Share
	for i, a := range first {
		for j, b := range second {
			c := compare.New(a, b, sheet.Tool{})
			if i != j {
				strangers.count(!c.Related)
				continue
			}
			lined := linedUp(c, int(lateSeconds*b.Clip.FPS.Float()))
			all.add(lined)
			t.AppendRow([]any{directions[i].recording, fmt.Sprintf("%.2f", c.Likeness), c.Offset, len(b.Beats), lined.Of, lined.Right})
		}
	}
	if err := render(w, t); err != nil {
		return err
	}
	_, err = fmt.Fprintf(w, "\nframes lined up within 2: %.3f of %d; films of other recordings told apart: %d of %d\n",
		all.Value(), all.Of, strangers.Right, strangers.Of)
	return err
}

// filmAll films every recording twice.
func filmAll(ctx context.Context, size image.Point) (first, second []*sheet.Sheet, err error) {
	lib := solid.Open(os.DirFS(recordings))
	for _, d := range directions {
		a, err := filmed(ctx, size, lib, solid.Figure{Name: "actor", Recording: d.recording, Start: d.start, Look: solid.Warm})
		if err != nil {
			return nil, nil, err
		}
		b, err := filmed(ctx, size, lib, solid.Figure{Name: "actor", Recording: d.recording, Start: d.start + lateSeconds, Turn: d.turn, Look: solid.Cold})
		if err != nil {
			return nil, nil, err
		}
		first, second = append(first, a), append(second, b)
	}
	return first, second, nil
}

// filmed draws and measures one figure before the usual camera.
func filmed(ctx context.Context, size image.Point, lib solid.Library, f solid.Figure) (*sheet.Sheet, error) {
	sc, err := solid.New(solid.Spec{
		Name: f.Recording, Width: size.X, Height: size.Y, Figures: []solid.Figure{f},
		Camera: solid.Camera{At: solid.Vec{Y: 1.2, Z: 6}, Aim: solid.Vec{Y: 0.9}}, World: solid.World{Shadow: 0.45},
	}, lib)
	if err != nil {
		return nil, err
	}
	p := ofSolid(sc)
	t := &trial{truth: p.Truth()}
	err = t.measure(ctx, &reel{picture: &p}, extract.Clip{
		Name: p.name, Width: p.size.X, Height: p.size.Y, Work: p.size, Rate: extract.Rate(p.rate),
	})
	return t.sheet, err
}

// linedUp counts the frames of the reference that the pass has, and those that
// are lined up within two frames of where they are.
func linedUp(c *compare.Comparison, late int) (frames Share) {
	for r := c.Reference.FirstFrame + late; r <= min(c.Reference.Last(), c.Pass.Last()+late); r++ {
		at, ok := c.PassFrame(r)
		off := at - float64(r-late)
		frames.count(ok && off >= -2 && off <= 2)
	}
	return frames
}
