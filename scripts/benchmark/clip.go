package main

import (
	"context"
	"image"

	"holdfast/extract"
)

// writeClip writes a picture as an H.264 video.
func writeClip(ctx context.Context, path string, p *picture, crf int) error {
	r := &reel{picture: p}
	return writeFrames(ctx, path, p, crf, r.Next)
}

// writeFrames writes what next draws in the size and at the rate of a picture.
func writeFrames(ctx context.Context, path string, p *picture, crf int, next func(*image.YCbCr) error) error {
	return extract.WriteVideo(ctx, path, extract.VideoOptions{
		Width: p.size.X, Height: p.size.Y, Rate: extract.Rate(p.rate), CRF: crf,
	}, next)
}
