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
	return w.heights[min(max(t-w.f.Start, 0), len(w.heights)-1)]
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
	// depthStep is the largest share of all its growth that one frame may bring: a
	// figure whose legs come into sight as it sets off does not grow.
	depthStep = 0.25
)

// measureHeights finds how tall the figure is in each frame where it comes nearer or
// goes: while it grows its feet go down in the picture.
func (w *walker) measureHeights() {
	f := w.f
	boxes := w.s.boxes(f)
	var times, heights, bottoms []float64
	for t := f.Start; t <= f.End(); t++ {
		h, bottom, ok := w.around(boxes, t-f.Start)
		if !ok {
			return
		}
		times, heights, bottoms = append(times, float64(t)), append(heights, h), append(bottoms, bottom)
	}
	least, most := slices.Min(heights), slices.Max(heights)
	if most < depthLeast*least || jump(heights) > depthStep*(most-least) {
		return
	}
	_, down := stat.LinearRegression(heights, bottoms, nil, false)
	if down < depthDown || stat.Correlation(heights, bottoms, nil) < depthSteady ||
		math.Abs(stat.Correlation(times, heights, nil)) < depthSteady {
		return
	}
	w.heights = heights
}

// jump is the largest difference between one value and the next.
func jump(v []float64) float64 {
	most := 0.0
	for i := 1; i < len(v); i++ {
		most = max(most, math.Abs(v[i]-v[i-1]))
	}
	return most
}

// boxes are those around what a figure's silhouettes mark in its frames.
func (s *Stretch) boxes(f *figure.Figure) []figure.Box {
	list := make([]figure.Box, len(f.Boxes))
	for i, box := range f.Boxes {
		list[i] = s.Bodies[f.Start+i].Inside(box)
	}
	return list
}

// around is the median height, and the median lowest row, of the boxes around the
// i-th, pixels. ok is false where there is none.
func (w *walker) around(boxes []figure.Box, i int) (height, bottom float64, ok bool) {
	n := int(math.Round(depthSeconds * w.s.Rate))
	var heights, bottoms []float64
	for _, b := range boxes[max(0, i-n):min(len(boxes), i+n+1)] {
		if !b.Empty() {
			heights, bottoms = append(heights, float64(b.H())), append(bottoms, float64(b.Y1))
		}
	}
	if len(heights) == 0 {
		return 0, 0, false
	}
	return median(heights), median(bottoms), true
}
