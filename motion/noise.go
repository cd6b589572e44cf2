package motion

import (
	"math"
	"slices"

	"holdfast/motion/figure"
	"holdfast/motion/travel"
)

// leastBands is how many parts of the world there must be for their median to
// mean anything: beside a figure that fills the picture lies mostly what hangs
// together with it.
const leastBands = 3

const (
	// areaShare is the side, in figure heights, of an area that a living part of a
	// figure moves: about a face. Grain and coding move spots.
	areaShare = 0.1
	// areaMost is the most neighbours asked for: a cell and three make a square.
	areaMost = 3
)

// areaNeighbours is how many neighbours bear out what a cell of an area shows, for
// a figure of the given height in pixels; one where the area is no larger than two
// cells.
func areaNeighbours(height float64) int {
	side := areaShare * height / travel.CellSide
	return max(1, min(areaMost, int(math.Round(side*side))-1))
}

// worldNoise returns the travel, in pixels, that the still world shows on a
// step, borne out by so many neighbours, and that is therefore none: coding, grain
// and a camera not quite taken out. The figure's farthest part is the farthest of
// as many cells as r has, so that is asked of the world too. It is cut into bands
// of as many cells, and the median band is taken: a shadow or a passer-by touches
// few of them. It is 0, not known, where there are fewer than leastBands.
func worldNoise(m *travel.Map, r figure.Region, neighbours int) float64 {
	size := r.Size()
	if size == 0 {
		return 0
	}
	var bands []float64
	most, n := 0.0, 0
	for i, in := range r.Cells {
		if in {
			continue
		}
		most = max(most, m.BorneOut(i, neighbours))
		if n++; n == size {
			bands = append(bands, most)
			most, n = 0, 0
		}
	}
	if len(bands) < leastBands {
		return 0
	}
	slices.Sort(bands)
	return bands[(len(bands)-1)/2]
}
