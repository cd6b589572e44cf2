package main

import (
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"holdfast/extract"
	"holdfast/motion/scene"
)

func demoCommand() *cli.Command {
	return &cli.Command{
		Name:      "demo",
		Usage:     "draw a small clip to try holdfast on",
		UsageText: "holdfast demo [OPTIONS] DIR",
		Description: "Draws a clip of a made-up figure that acts, walks and hops, and writes it to\n" +
			"DIR, which is made if it is not there.",
		Flags:  voiceFlags("no progress, and nothing said"),
		Action: runDemo,
	}
}

func runDemo(c *cli.Context) error {
	dir, err := oneArgument(c, "folder")
	if err != nil {
		return err
	}
	v, err := readVoice(c)
	if err != nil {
		return err
	}
	sc, err := scene.Demo()
	if err != nil {
		return err
	}
	made, err := ensureFolder(dir)
	if err != nil {
		return err
	}
	path := filepath.Join(dir, sc.Name+".mp4")
	bar := v.progress("drawing", int64(sc.Frames))
	err = extract.WriteVideo(c.Context, path, extract.VideoOptions{
		Width: sc.Width, Height: sc.Height, Rate: extract.Rate(sc.Rate),
	}, drawAll(sc, bar))
	bar.done()
	if err != nil {
		if made {
			os.Remove(dir)
		}
		return err
	}
	v.say("wrote %s; see what is in it with: holdfast sheet %s", path, path)
	return nil
}

// drawAll returns a function that draws the next frame of a scene at each
// call, and io.EOF after the last.
func drawAll(sc *scene.Scene, bar *progress) func(*image.YCbCr) error {
	n := 0
	return func(dst *image.YCbCr) error {
		if n == sc.Frames {
			return io.EOF
		}
		if err := sc.Draw(dst, n); err != nil {
			return fmt.Errorf("draw frame %d: %w", n, err)
		}
		bar.frame(n)
		n++
		return nil
	}
}

// ensureFolder makes a folder if nothing is there, and reports whether it did.
func ensureFolder(dir string) (made bool, err error) {
	info, err := os.Stat(dir)
	switch {
	case err == nil && !info.IsDir():
		return false, &outputError{fmt.Errorf("%s is not a folder", dir)}
	case err == nil:
		return false, nil
	case !errors.Is(err, os.ErrNotExist):
		return false, &outputError{err}
	}
	if err := os.Mkdir(dir, 0o777); err != nil {
		return false, &outputError{err}
	}
	return true, nil
}
