package main

import (
	"image"
	"math"

	"holdfast/motion/flow"
	"holdfast/motion/scene"
)

// A pair is two pictures of a drawn street whose every point's way is known:
// nothing in it moves but the camera.
type pair struct {
	name     string
	from, to *image.Gray
	truth    scene.CameraStep
}

// flowPairs draws a slow and a fast step of a camera that also turns and
// comes nearer.
func flowPairs() ([]pair, error) {
	var list []pair
	for _, c := range []struct {
		name  string
		move  scene.CameraMove
		noise float64
	}{
		{"slow step", scene.CameraMove{To: 1, DX: 1.3, DY: 0.6, Roll: 0.1, Zoom: 1.004, Ease: scene.Linear}, 0},
		{"slow step, grain", scene.CameraMove{To: 1, DX: 1.3, DY: 0.6, Roll: 0.1, Zoom: 1.004, Ease: scene.Linear}, 4},
		{"fast step", scene.CameraMove{To: 1, DX: 9, DY: -4, Roll: 0.8, Zoom: 1.02, Ease: scene.Linear}, 0},
	} {
		sc, err := scene.New(scene.Spec{Name: c.name, Width: mainSize.X, Height: mainSize.Y, Seed: 1,
			Condition: scene.Condition{Noise: c.noise}, Shots: []scene.Shot{{Frames: 2, Camera: scene.Camera{Moves: []scene.CameraMove{c.move}}}}})
		if err != nil {
			return nil, err
		}
		p := pair{name: c.name, truth: sc.Truth().Camera[1]}
		for i, dst := range []**image.Gray{&p.from, &p.to} {
			f := sc.NewFrame()
			if err := sc.Draw(f, i); err != nil {
				return nil, err
			}
			*dst = &image.Gray{Pix: f.Y, Stride: f.YStride, Rect: f.Rect}
		}
		list = append(list, p)
	}
	return list, nil
}

// An endPoint is the distance between found and true ends of the displacements
// of a picture, pixels.
type endPoint struct{ mean, most float64 } // most: what 95 of 100 stay under

// endPointError looks at all pixels that the step leaves within the picture.
func endPointError(f *flow.Field, c scene.CameraStep) endPoint {
	cx, cy := float64(f.W)/2, float64(f.H)/2
	sin, cos := math.Sincos(c.Roll * math.Pi / 180)
	var m Mean
	var list []float64
	for y := range f.H {
		for x := range f.W {
			// The middle of pixel (x, y) is half a pixel from its corner.
			dx, dy := float64(x)+0.5-cx, float64(y)+0.5-cy
			u := c.Zoom*(cos*dx-sin*dy) - c.DX - dx
			v := c.Zoom*(sin*dx+cos*dy) - c.DY - dy
			if math.Abs(dx+u) > cx || math.Abs(dy+v) > cy {
				continue
			}
			fu, fv := f.At(x, y)
			d := math.Hypot(float64(fu)-u, float64(fv)-v)
			m.include(d)
			list = append(list, d)
		}
	}
	return endPoint{m.Value(), quantile(list, 0.95)}
}
