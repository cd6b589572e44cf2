package main

import (
	"fmt"
	"image"
	"io"

	"holdfast/motion/scene"
	"holdfast/motion/scene/solid"
)

// A film is a scene of either kind: its frames and what is true of it.
type film interface {
	Draw(dst *image.YCbCr, frame int) error
	Truth() scene.Truth
}

// A picture is a film with what any scene has.
type picture struct {
	film
	name   string
	size   image.Point
	rate   scene.Rate
	frames int
}

func ofScene(sc *scene.Scene) picture {
	return picture{sc, sc.Name, image.Pt(sc.Width, sc.Height), sc.Rate, sc.Frames}
}

func ofSolid(sc *solid.Scene) picture {
	return picture{sc, sc.Name, image.Pt(sc.Width, sc.Height), sc.Rate, sc.Frames}
}

// A reel gives the frames of a picture one after the other, straight from the
// drawing.
type reel struct {
	*picture
	next int
}

// Next draws the next frame into dst; io.EOF after the last.
func (r *reel) Next(dst *image.YCbCr) error {
	if r.next == r.frames {
		return io.EOF
	}
	if err := r.Draw(dst, r.next); err != nil {
		return fmt.Errorf("draw frame %d: %w", r.next, err)
	}
	r.next++
	return nil
}
