package feet

import (
	"slices"

	"holdfast/motion/figure"
)

// A lump is one low part of a silhouette's lower outline: a foot, most often, or
// both where they touch. Working pixels; columns include both ends.
type lump struct {
	x0, x1 int
	y      int // of the lowest row, below which nothing is
	yl, yr int // the same near either end
}

const (
	// lowShare is how far above the lowest point of a figure, in figure heights,
	// a lump may lie: a far foot stands higher in the picture.
	lowShare = 0.25
	// soleShare is how far the outline may rise, in figure heights, within one
	// lump: a foot's thickness.
	soleShare = 0.05
	// thickShare is how thick, in figure heights, something is at least: thinner
	// are remains of a shadow.
	thickShare = 0.025
	// apartShare is how far apart, in figure heights, the lowest points of two
	// lumps are at least: half a foot's length.
	apartShare = 0.07
)

// lumps finds the low parts of what s marks inside box, for a figure of the
// given height, working pixels.
func lumps(s *figure.Silhouette, box figure.Box, height float64) []lump {
	const k = figure.Shrink
	x0, x1 := max(0, box.X0/k), min(s.W, box.X1/k)
	y0, y1 := max(0, box.Y0/k), min(s.H, box.Y1/k)
	if x0 >= x1 || y0 >= y1 {
		return nil
	}
	thick := max(2, int(thickShare*height/k+0.5))
	low := make([]int, x1-x0) // row below the lowest marked one, 0 for none
	bottom := 0
	for x := range low {
		low[x] = lowest(s, x0+x, y0, y1, thick)
		bottom = max(bottom, low[x])
	}
	floor := bottom - int(lowShare*height/k)
	sole := max(1, int(soleShare*height/k+0.5))
	apart := max(1, int(apartShare*height/k+0.5))
	var list []lump
	for x := range low {
		if low[x] == 0 || low[x] < floor || !isLowest(low, x, apart) {
			continue
		}
		l, r := x, x
		for l > 0 && low[l-1] >= low[x]-sole && low[l-1] <= low[x] {
			l--
		}
		for r+1 < len(low) && low[r+1] >= low[x]-sole && low[r+1] <= low[x] {
			r++
		}
		if n := len(list); n > 0 && list[n-1].x1 >= (x0+l)*k { // the same plateau again
			continue
		}
		near := max(1, sole/2)
		list = append(list, lump{x0: (x0 + l) * k, x1: (x0+r)*k + k - 1, y: low[x] * k,
			yl: slices.Max(low[l:min(r, l+near)+1]) * k, yr: slices.Max(low[max(l, r-near):r+1]) * k})
	}
	return list
}

// isLowest reports whether no column within reach is lower than column x.
func isLowest(low []int, x, reach int) bool {
	for i := max(0, x-reach); i <= min(len(low)-1, x+reach); i++ {
		if low[i] > low[x] {
			return false
		}
	}
	return true
}

func (l lump) width() float64 { return float64(l.x1 - l.x0 + 1) }

// lowest is the row below the lowest run of at least thick marked pixels in a
// column, 0 for none.
func lowest(s *figure.Silhouette, x, y0, y1, thick int) int {
	run := 0
	for y := y1 - 1; y >= y0; y-- {
		if !s.At(x, y) {
			run = 0
			continue
		}
		if run++; run == thick {
			return y + thick
		}
	}
	return 0
}
