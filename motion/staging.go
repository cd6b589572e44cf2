package motion

import (
	"image"

	"holdfast/motion/figure"
	"holdfast/motion/staging"
)

// An Approach is a stretch over which the gap between two figures shrinks or grows.
type Approach struct {
	Shot          int // index into Result.Shots
	First, Second int // ids of the figures
	staging.Approach
}

// stage tells who comes and goes, and who walks up to whom.
func (r *Result) stage(size image.Point, rate float64) {
	for i, shot := range r.Shots {
		s := staging.Shot{
			Start: shot.Start, End: shot.End, W: size.X, H: size.Y, Rate: rate,
			Camera: r.Curve.Camera[shot.Start : shot.End+1],
		}
		var cast []*Figure
		for k := range r.Figures {
			// Of what is known by its motion alone it is not known where it ends.
			if f := &r.Figures[k]; f.Shot == i && f.Method != figure.ByMotion {
				f.Enters, f.Leaves = s.Enters(f.path()), s.Leaves(f.path())
				cast = append(cast, f)
			}
		}
		for k, a := range cast {
			for _, b := range cast[k+1:] {
				for _, n := range s.Approaches(a.path(), b.path()) {
					r.Approaches = append(r.Approaches, Approach{i, a.ID, b.ID, n})
				}
			}
		}
	}
}

func (f *Figure) path() staging.Path {
	return staging.Path{Start: f.Start, Boxes: f.Boxes, Height: f.HeightPx, Rooted: f.Rooted}
}
