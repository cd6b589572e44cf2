package motion

import (
	"slices"

	"holdfast/motion/figure"
	"holdfast/motion/travel"
)

// leastBands is how many parts of the world there must be for their median to
// mean anything: beside a figure that fills the picture lies mostly what hangs
// together with it.
const leastBands = 3

// broadly is how many neighbours bear out what moves over an area, as water does:
// grain and coding rarely move more than two cells alike.
const broadly = 3

// worldNoise returns the travel, in pixels, that the still world shows on a
// step and that is therefore none: coding, grain and a camera not quite taken
// out; and how much of it is borne out broadly. The figure's farthest part is the
// farthest of as many cells as r has, so that is asked of the world too. It is cut
// into bands of as many cells, and the median band is taken: a shadow or a
// passer-by touches few of them. Both are 0, not known, where there are fewer than
// leastBands.
func worldNoise(m *travel.Map, r figure.Region) (noise, broad float64) {
	size := r.Size()
	if size == 0 {
		return 0, 0
	}
	var noises, broads []float64
	most, wide, n := 0.0, 0.0, 0
	for i, in := range r.Cells {
		if in {
			continue
		}
		most, wide = max(most, m.Supported(i)), max(wide, m.BorneOut(i, broadly))
		if n++; n == size {
			noises, broads = append(noises, most), append(broads, wide)
			most, wide, n = 0, 0, 0
		}
	}
	if len(noises) < leastBands {
		return 0, 0
	}
	slices.Sort(noises)
	slices.Sort(broads)
	return noises[(len(noises)-1)/2], broads[(len(broads)-1)/2]
}
