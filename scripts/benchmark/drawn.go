package main

import (
	"fmt"
	"image"
	"io"

	"holdfast/motion/scene"
)

// drawn gives the frames of a scene one after the other, straight from the
// drawing.
type drawn struct {
	scene *scene.Scene
	next  int
}

// Next draws the next frame into dst; io.EOF after the last.
func (d *drawn) Next(dst *image.YCbCr) error {
	if d.next == d.scene.Frames {
		return io.EOF
	}
	if err := d.scene.Draw(dst, d.next); err != nil {
		return fmt.Errorf("draw frame %d: %w", d.next, err)
	}
	d.next++
	return nil
}
