// Package travel measures how far things go from one frame to the next
// against the still world, the camera taken out: a map of small cells, exact
// to a few hundredths of a pixel where something moves slowly. It knows
// nothing of figures.
package travel

import (
	"math"
	"slices"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
	"holdfast/motion/picture"
	"holdfast/motion/rank"
)

// CellSide is the side of a cell in pixels: about the width of a hand of a
// figure that fills half of the working picture's height.
const CellSide = 8

const (
	// windowMargin widens the window in which a cell's travel is fitted, so
	// that it holds some edge of what moves.
	windowMargin = 2
	// border keeps windows and their slopes inside the picture.
	border = windowMargin + 2
	// changedNoise is how many times the step's noise a cell must differ from
	// the frame before to be looked at.
	changedNoise = 3.0
	// leastChange is the smallest difference looked at, in levels: the rounding
	// of two frames leaves half a level.
	leastChange = 0.75
	// slowPixels is the travel up to which a cell is fitted; beyond it dense
	// flow, good to a quarter of a pixel, is near enough.
	slowPixels = 4.0
	// explainedShare is the most that a fitted displacement may leave of a
	// cell's squared difference. More is left when light, grain or coding
	// changed the cell and nothing travelled.
	explainedShare = 0.5
	// fastShare is the same for travel told by dense flow alone, which finds some
	// likeness anywhere: only a good match is the thing itself.
	fastShare = 0.2
	fitSteps  = 5
	fitStop   = 0.01 // pixels: a smaller step ends the fit
)

// Headings is how many directions are told apart: what a byte holds.
const Headings = 256

// heading is the direction of a displacement.
func heading(u, v float64) uint8 {
	return uint8(int(math.Round(math.Atan2(v, u)/(2*math.Pi)*Headings)) & (Headings - 1))
}

// Vector returns the travel of cell i across and down, pixels.
func (m *Map) Vector(i int) (x, y float64) {
	y, x = math.Sincos(float64(m.Heading[i]) * 2 * math.Pi / Headings)
	return x * float64(m.Travel[i]), y * float64(m.Travel[i])
}

// A Map is the travel from one frame to the next, cell by cell.
type Map struct {
	Cols, Rows int
	Travel     []float32 // pixels, 0 where nothing changed
	Heading    []uint8   // where to, in Headings to a turn from rightwards on, clockwise as seen
	Lost       []bool    // cells that changed though no displacement explains it
	Noise      float64   // mean difference of an unchanged cell, levels
	Same       bool      // every pixel of the picture is as it was
}

// Bounds returns the pixels of cell i of a picture of any size.
func (m *Map) Bounds(i int) (x0, y0 int) {
	return border + i%m.Cols*CellSide, border + i/m.Cols*CellSide
}

// Cell returns the cell that holds working pixel (x, y); ok is false in the
// border that has none.
func (m *Map) Cell(x, y int) (i int, ok bool) {
	col, row := (x-border)/CellSide, (y-border)/CellSide
	if x < border || y < border || col >= m.Cols || row >= m.Rows {
		return 0, false
	}
	return row*m.Cols + col, true
}

// A Meter makes maps for pictures of one size, reusing its memory.
type Meter struct {
	w, h    int
	diff    []float64 // mean difference of each cell, levels
	scratch []float64
	window  []sample
}

// NewMeter returns a Meter for pictures of w by h pixels.
func NewMeter(w, h int) *Meter { return &Meter{w: w, h: h} }

// step is one pair of frames and what is known of it.
type step struct {
	from, to *picture.Picture
	flow     *flow.Field
	fit      camera.Fit
	cx, cy   float64
}

// still returns where pixel (x, y) of the earlier frame lies in the later one
// if it belongs to the still world.
func (s *step) still(x, y float64) (float64, float64) {
	qx, qy := s.fit.Motion.Apply(x-s.cx, y-s.cy)
	return qx + s.cx, qy + s.cy
}

// Measure sets dst to the travel between two frames.
func (m *Meter) Measure(dst *Map, from, to *picture.Picture, f *flow.Field, fit camera.Fit) {
	dst.Cols, dst.Rows = max(0, (m.w-2*border)/CellSide), max(0, (m.h-2*border)/CellSide)
	n := dst.Cols * dst.Rows
	dst.Travel = append(dst.Travel[:0], make([]float32, n)...)
	dst.Heading = append(dst.Heading[:0], make([]uint8, n)...)
	dst.Lost = append(dst.Lost[:0], make([]bool, n)...)
	dst.Same = slices.Equal(from.Y, to.Y)
	dst.Noise = 0
	if n == 0 || dst.Same {
		return
	}
	s := &step{from: from, to: to, flow: f, fit: fit, cx: float64(m.w-1) / 2, cy: float64(m.h-1) / 2}
	m.differences(dst, s)
	limit := math.Max(leastChange, changedNoise*dst.Noise)
	for i, d := range m.diff {
		if d > limit {
			t, u, v, ok := m.travel(dst, s, i)
			dst.Travel[i], dst.Heading[i], dst.Lost[i] = float32(t), heading(u, v), !ok
		}
	}
}

// differences fills m.diff and sets the noise to the median of it: more than
// half of the picture shows the still world, or the whole of it is unsettled.
func (m *Meter) differences(dst *Map, s *step) {
	m.diff = m.diff[:0]
	for i := range dst.Cols * dst.Rows {
		x0, y0 := dst.Bounds(i)
		m.diff = append(m.diff, m.difference(s, x0, y0))
	}
	m.scratch = append(m.scratch[:0], m.diff...)
	dst.Noise = rank.Median(m.scratch)
}

// difference is the mean absolute difference over every second pixel of a
// cell, with camera and brightness taken out.
func (m *Meter) difference(s *step, x0, y0 int) float64 {
	sum, n := 0.0, 0
	for y := y0; y < y0+CellSide; y += 2 {
		for x := x0 + (y/2)%2; x < x0+CellSide; x += 2 {
			qx, qy := s.still(float64(x), float64(y))
			v, ok := at(s.to.Smooth, m.w, m.h, qx, qy)
			if !ok {
				continue
			}
			sum += math.Abs(v - s.fit.Gain*float64(s.from.Smooth[y*m.w+x]) - s.fit.Bias)
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// at returns the value of p between pixels; ok is false where it or its slope
// would need a pixel outside.
func at(p []uint8, w, h int, x, y float64) (v float64, ok bool) {
	ix, iy := int(x), int(y)
	if x < 1 || y < 1 || ix >= w-2 || iy >= h-2 {
		return 0, false
	}
	i := iy*w + ix
	fx, fy := x-float64(ix), y-float64(iy)
	a, b := float64(p[i]), float64(p[i+1])
	c, d := float64(p[i+w]), float64(p[i+w+1])
	top, bottom := a+fx*(b-a), c+fx*(d-c)
	return top + fy*(bottom-top), true
}
