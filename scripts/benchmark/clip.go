package main

import (
	"context"
	"image"

	"holdfast/extract"
	"holdfast/motion/scene"
)

// writeClip writes a scene as an H.264 video.
func writeClip(ctx context.Context, path string, sc *scene.Scene, crf int) error {
	d := &drawn{scene: sc}
	return writeFrames(ctx, path, sc, crf, d.Next)
}

// writeFrames writes what next draws in the size and at the rate of a scene.
func writeFrames(ctx context.Context, path string, sc *scene.Scene, crf int, next func(*image.YCbCr) error) error {
	return extract.WriteVideo(ctx, path, extract.VideoOptions{
		Width: sc.Width, Height: sc.Height, Rate: extract.Rate(sc.Rate), CRF: crf,
	}, next)
}
