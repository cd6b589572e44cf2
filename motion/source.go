// Package motion measures pictures: shots and camera, figures, holds and
// moves. Frames come in one at a time and numbers come out; it opens no files
// and prints nothing.
package motion

import "image"

// A Source gives the frames of a clip one after the other.
type Source interface {
	// Next fills dst, a 4:2:0 picture of the working size, with the next
	// frame. It returns io.EOF after the last one.
	Next(dst *image.YCbCr) error
}

// Options say what comes in and how to measure it.
type Options struct {
	Size     image.Point     // working size of every frame
	Rate     float64         // frames per second
	Marks    Marks           // what was shown by hand
	Progress func(frame int) // called after each frame read; nil for silence
}
