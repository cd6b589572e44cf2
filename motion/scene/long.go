package scene

import (
	"fmt"
	"image"
)

// Long returns one shot of so many frames in which one or two figures change their
// pose again and again, at the given size, which must be even: longer than what is
// kept of a shot at a time.
func Long(size image.Point, figures, frames int) (*Scene, error) {
	const every = 48 // frames from one move of a figure to its next
	poses := []Pose{poseSalute, poseBow, poseCheer, poseBack, poseThink}
	var list []Figure
	for n := range figures {
		f := Figure{
			Name: fmt.Sprintf("figure-%d", n+1), Ground: ground, X: float64(320*n - 160*(figures-1)), Left: n > 0, Shadow: 0.4,
			Look: Look{Palette: n}, Keys: []Key{{To: 12, Pose: poseEasy}},
		}
		for k := 0; 24+(k+1)*every < frames; k++ {
			f.Keys = passOn(f.Keys, poses[(k+n)%len(poses)], float64(24+k*every+20*n))
		}
		list = append(list, f)
	}
	spec := one(fmt.Sprintf("long-%d", figures), Shot{Frames: frames, Backdrop: Backdrop{Seed: 31}, Figures: list})
	spec.Width, spec.Height = size.X, size.Y
	return New(spec)
}
