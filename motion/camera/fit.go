package camera

import (
	"math"

	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

// leastCoverage is the share of the picture, as cells with something to see
// in them on the camera's motion over all cells, below which the fit may be
// the figure's motion and not the camera's.
const leastCoverage = 0.1

// A Fit is the camera's motion between two frames and how well it is founded.
type Fit struct {
	Motion     Similarity
	Gain, Bias float64 // brightness of the later frame: Gain*earlier + Bias
	Points     int     // cells with something to see
	Inliers    int     // those of them that follow Motion
	Cells      int     // all cells
	Residual   float64 // robust deviation left after alignment, levels; NaN where nothing could be aligned
}

// Founded reports whether enough of the picture follows the motion for it to
// be the camera's.
func (f Fit) Founded() bool {
	return float64(f.Inliers) >= leastCoverage*float64(f.Cells)
}

// An Estimator fits the camera's motion for pictures of one size. It is not
// safe for use by several goroutines at once.
type Estimator struct {
	g      grid
	points []point
	cells  []int
	ref    refiner
	last   Similarity
	habit  habit
}

// NewEstimator returns an Estimator for pictures of w by h pixels.
func NewEstimator(w, h int) *Estimator {
	g := newGrid(w, h)
	return &Estimator{g: g, ref: refiner{g: g}, last: Identity}
}

// Fit returns the similarity that the background follows from one frame to
// the next, given the dense flow between them. Where too little of the
// picture can be followed the motion is Identity.
func (e *Estimator) Fit(from, to *picture.Picture, f *flow.Field) Fit {
	least := math.Max(minGradient, noiseGradient*from.Noise())
	e.points = e.g.points(e.points[:0], from, f, least)
	rough := consensus(e.points, Identity, e.last)
	e.inliers(rough)
	p, residual := e.ref.refine(from, to, rough, e.cells, least)
	fit := Fit{
		Motion: p.s, Gain: p.gain, Bias: p.bias, Points: len(e.points),
		Inliers: len(e.cells), Cells: e.g.cols * e.g.rows, Residual: residual,
	}
	if !fit.Founded() || math.IsNaN(residual) || e.ref.standing(to, p, e.habit.stands()) {
		fit.Motion = Identity
	}
	e.last = fit.Motion
	e.habit.note(fit)
	return fit
}

// inliers sets e.cells to the cells whose point follows s.
func (e *Estimator) inliers(s Similarity) {
	e.cells = e.cells[:0]
	for i := range e.points {
		if r := e.points[i].misfit(s); r > -1 && r < 1 {
			e.cells = append(e.cells, e.points[i].cell)
		}
	}
}
