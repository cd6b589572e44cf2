// Package feet tells when and where figures stand on the ground, how far they
// slip there, and when they leave it.
package feet

import (
	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// A Stretch is what feet are told from: consecutive frames of one shot.
type Stretch struct {
	Rate         float64             // frames a second
	W, H         int                 // of the working picture
	Above, Below int                 // rows of it, at its top and at its foot, that show nothing but bars
	Path         []camera.Similarity // from the first frame to each
	Luma         [][]uint8           // one a frame, W*H
	Bodies       []figure.Silhouette // one a frame, at layer size; none where figures have no outline
	Covers       []figure.Silhouette // likewise, what hides the ground: bodies and their shadows
	Still        []bool              // no part of any figure moved on the way to the frame
	Figures      []figure.Figure
	Line         *Line  // where the ground was shown to be; nil: to be found
	Marks        []Mark // feet that were shown

	bodies, covers [][]bool // unpacked when asked for
}

// bottom is the row below the last that shows something.
func (s *Stretch) bottom() int { return s.H - s.Below }
