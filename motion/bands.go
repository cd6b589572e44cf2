package motion

import (
	"math"
	"slices"

	"holdfast/motion/figure"
	"holdfast/motion/travel"
)

// Bands are the parts of a figure's box that need no marking: three of a third of its
// height each, and its two halves as the screen has them. The thirds are NaN where the
// box is only that of what moves, as of a figure that never leaves its place.
type Bands struct{ Upper, Middle, Lower, Left, Right float64 }

// list are the bands in order.
func (b *Bands) list() [5]*float64 {
	return [5]*float64{&b.Upper, &b.Middle, &b.Lower, &b.Left, &b.Right}
}

// over is b with all divided by some length.
func (b Bands) over(length float64) Bands {
	for _, v := range b.list() {
		*v /= length
	}
	return b
}

// band adds the mean travel of the bands of all figures' boxes together, pixels, on
// the way to each frame of a stretch.
func (s *shot) band(found *figure.Found, maps []*travel.Map) {
	partly := slices.ContainsFunc(found.Figures, func(f figure.Figure) bool { return f.Rooted && !f.Whole })
	var all figure.Box
	for t := range maps {
		all = all.Union(boxOf(found, t))
	}
	for t, m := range maps {
		var b Bands
		if m != nil && t > 0 {
			box := boxOf(found, t-1).Union(boxOf(found, t))
			if partly {
				box = all // one arm at a time has no middle of a body
			}
			b = bandsOf(m, found.Regions[t-1], box)
		}
		if partly {
			b.Upper, b.Middle, b.Lower = math.NaN(), math.NaN(), math.NaN()
		}
		s.bands = append(s.bands, b)
	}
}

// boxOf is the box around all figures on a frame of a stretch.
func boxOf(found *figure.Found, t int) (b figure.Box) {
	for _, f := range found.Figures {
		b = b.Union(f.At(t))
	}
	return b
}

// bandsOf is the mean travel of a region's cells in each band of a box. A cell whose
// travel flow lost goes as far as those beside it.
func bandsOf(m *travel.Map, region figure.Region, box figure.Box) Bands {
	var sum Bands
	var cells [5]float64
	if box.Empty() {
		return sum
	}
	for i, in := range region.Cells {
		if !in {
			continue
		}
		x, y := m.Bounds(i)
		x, y = x+travel.CellSide/2, y+travel.CellSide/2
		half := 3
		if 2*x >= box.X0+box.X1 {
			half = 4
		}
		third := min(2, max(0, 3*(y-box.Y0)/box.H()))
		far := wayOf(m, i)
		for _, k := range [2]int{third, half} {
			*sum.list()[k] += far
			cells[k]++
		}
	}
	for k, v := range sum.list() {
		*v /= max(1, cells[k])
	}
	return sum
}

// wayOf is the travel of a cell, or of the farthest beside one that flow lost.
func wayOf(m *travel.Map, i int) float64 {
	if !m.Lost[i] {
		return float64(m.Travel[i])
	}
	col, row, most := i%m.Cols, i/m.Cols, float32(0)
	for y := max(0, row-1); y <= min(m.Rows-1, row+1); y++ {
		for x := max(0, col-1); x <= min(m.Cols-1, col+1); x++ {
			most = max(most, m.Travel[y*m.Cols+x])
		}
	}
	return float64(most)
}
