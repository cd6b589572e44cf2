package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"

	"holdfast/cmd/assemble"
	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/scene"
	"holdfast/motion/scene/solid"
	"holdfast/sheet"
)

// run draws, measures and judges one scene. What is compressed or larger than
// the working size goes the way of a real clip: written as a video and read
// back.
func (j *job) run(ctx context.Context) (*trial, error) {
	p := &j.picture
	t := &trial{set: j.set, scene: j.scene, variant: j.variant.Name, size: p.size,
		rate: p.rate.Float(), frames: p.frames, truth: p.Truth()}
	if sc, ok := p.film.(*solid.Scene); ok {
		feet := sc.Feet()
		t.feet = &feet
	}
	var err error
	if area := t.size.X * t.size.Y; j.variant.CRF > 0 || area > cares[j.care] {
		err = t.measureClip(ctx, p, j.variant.CRF, j.care)
	} else {
		err = t.measure(ctx, &reel{picture: p}, extract.Clip{
			Name: p.name, Width: t.size.X, Height: t.size.Y, Work: t.size, Rate: extract.Rate(p.rate),
		})
	}
	if err != nil {
		return nil, fmt.Errorf("%s at %s: %w", p.name, sizeName(t.size), err)
	}
	t.judge()
	return t, nil
}

// measure measures the frames of a clip and makes its sheet, whose frames count
// from 0.
func (t *trial) measure(ctx context.Context, frames motion.Source, clip extract.Clip) (err error) {
	t.scale = float64(clip.Width) / float64(clip.Work.X)
	t.result, err = motion.Measure(ctx, frames, motion.Options{Size: clip.Work, Rate: clip.Rate.Float()})
	if err != nil {
		return err
	}
	t.sheet = assemble.New(clip, t.result).Sheet()
	return nil
}

// sheetOf measures a scene as it is drawn.
func sheetOf(ctx context.Context, sc *scene.Scene) (*sheet.Sheet, error) {
	p := ofScene(sc)
	var t trial
	err := t.measure(ctx, &reel{picture: &p}, extract.Clip{
		Name: p.name, Width: p.size.X, Height: p.size.Y, Work: p.size, Rate: extract.Rate(p.rate),
	})
	return t.sheet, err
}

// fineCRF is the constant rate factor of clips whose compression is not what
// is looked at: x264 calls 17 or 18 visually lossless or nearly so.
const fineCRF = 17

// measureClip writes the picture as a video and measures that.
func (t *trial) measureClip(ctx context.Context, p *picture, crf int, c care) error {
	dir, err := os.MkdirTemp("", "holdfast-bench-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if crf == 0 {
		crf = fineCRF
	}
	path := filepath.Join(dir, "clip.mp4")
	if err := writeClip(ctx, path, p, crf); err != nil {
		return err
	}
	return extract.Read(ctx, path, extract.Options{WorkArea: cares[c]}, func(r *extract.Reader) error {
		return t.measure(ctx, r, r.Clip())
	})
}
