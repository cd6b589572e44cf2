package main

import (
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/scene"
)

// run draws, measures and judges one scene. What is compressed or larger than
// the working size goes the way of a real clip: written as a video and read
// back.
func (j *job) run(ctx context.Context) (*trial, error) {
	sc := j.scene
	t := &trial{scene: j.name, variant: j.variant.Name, size: image.Pt(sc.Width, sc.Height),
		rate: sc.Rate.Float(), frames: sc.Frames, truth: sc.Truth()}
	var err error
	if j.variant.CRF > 0 || t.size.X*t.size.Y > mainSize.X*mainSize.Y {
		err = t.measureClip(ctx, sc, j.variant.CRF)
	} else {
		t.scale = 1
		t.result, err = motion.Measure(ctx, &drawn{scene: sc}, motion.Options{Size: t.size, Rate: t.rate})
	}
	if err != nil {
		return nil, fmt.Errorf("%s at %s: %w", sc.Name, sizeName(t.size), err)
	}
	t.judge()
	return t, nil
}

// fineCRF is the constant rate factor of clips whose compression is not what
// is looked at: x264 calls 17 or 18 visually lossless or nearly so.
const fineCRF = 17

// measureClip writes the scene as a video and measures that.
func (t *trial) measureClip(ctx context.Context, sc *scene.Scene, crf int) error {
	dir, err := os.MkdirTemp("", "holdfast-bench-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if crf == 0 {
		crf = fineCRF
	}
	path := filepath.Join(dir, "clip.mp4")
	if err := writeClip(ctx, path, sc, crf); err != nil {
		return err
	}
	return extract.Read(ctx, path, extract.Options{}, func(r *extract.Reader) error {
		clip := r.Clip()
		t.scale = float64(clip.Width) / float64(clip.Work.X)
		t.result, err = motion.Measure(ctx, r, motion.Options{Size: clip.Work, Rate: clip.Rate.Float()})
		return err
	})
}
