package feet

import (
	"math"
	"slices"

	"holdfast/motion/figure"

	"gonum.org/v1/gonum/stat"
)

// tallIn is how tall the figure is in frame t, pixels.
func (w *walker) tallIn(t int) float64 {
	if len(w.heights) == 0 {
		return w.height
	}
	return w.heights[min(max(t-w.first, 0), len(w.heights)-1)]
}

// tall is the same in drawing i.
func (w *walker) tall(i int) float64 { return w.tallIn(w.draws[i].start) }

// soleAt is the length of a foot in drawing i, pixels.
func (w *walker) soleAt(i int) float64 { return w.sole * w.tall(i) }

const (
	// depthSeconds is over how long, to either side, a figure's height is the median
	// of its boxes': longer than a stride.
	depthSeconds = 1.0
	// depthLeast is how many times as tall as at its smallest a figure must become
	// to be one that comes nearer or goes.
	depthLeast = 1.2
	// depthDown is how far its lowest point must go down, at least, for each pixel
	// that it grows: what sits down gets smaller and stays on its ground.
	depthDown = 0.25
	// depthSteady is how well, as a correlation, its height must go with time and
	// with its lowest point: where parts of a figure are lost it jumps.
	depthSteady = 0.85
)

// measureHeights finds how tall a figure is in each frame that comes nearer or
// goes: while it grows its feet go down in the picture.
func (w *walker) measureHeights(f *figure.Figure) {
	var times, heights, bottoms []float64
	for t := f.Start; t <= f.End(); t++ {
		h, bottom, ok := w.around(f, t)
		if !ok {
			return
		}
		times, heights, bottoms = append(times, float64(t)), append(heights, h), append(bottoms, bottom)
	}
	if slices.Max(heights) < depthLeast*slices.Min(heights) {
		return
	}
	_, down := stat.LinearRegression(heights, bottoms, nil, false)
	if down < depthDown || stat.Correlation(heights, bottoms, nil) < depthSteady ||
		math.Abs(stat.Correlation(times, heights, nil)) < depthSteady {
		return
	}
	w.first, w.heights = f.Start, heights
}

// around is the median height, and the median lowest row, of a figure's boxes
// around frame t, pixels. ok is false where there is none.
func (w *walker) around(f *figure.Figure, t int) (height, bottom float64, ok bool) {
	n := int(math.Round(depthSeconds * w.s.Rate))
	var heights, bottoms []float64
	for u := max(f.Start, t-n); u <= min(f.End(), t+n); u++ {
		if b := f.At(u); !b.Empty() {
			heights, bottoms = append(heights, float64(b.H())), append(bottoms, float64(b.Y1))
		}
	}
	if len(heights) == 0 {
		return 0, 0, false
	}
	return median(heights), median(bottoms), true
}
