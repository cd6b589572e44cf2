// Package poses says what is held in a hold: how a silhouette leans, how wide and
// tall it is, and how unlike two of them are. Silhouettes come in, numbers go out.
package poses

import (
	"math"
	"math/bits"
)

const (
	// cells is how many cells of a grid are a figure height: a cell is half as wide as
	// an arm.
	cells = 32
	// side is how many cells a grid is wide and high: a figure height to each side of
	// the middle, for arms that are stretched out.
	side = 64
)

// A grid is a silhouette on cells, its middle between the two in the middle; a row
// has a bit for each.
type grid [side]uint64

// A Shape is the silhouette of one frame. The zero Shape is that of nothing.
type Shape struct {
	Pixels        int     // how many belong to it
	Width, Height float64 // of its box, figure heights
	xx, yy, xy    float64 // second moments about its middle, figure heights squared
	grid          *grid
}

// Read reads a silhouette. each calls f with all of its pixels, and height is what
// its figure is tall, in the same pixels.
func Read(height float64, each func(f func(x, y int))) Shape {
	var s Shape
	var x0, y0, x1, y1 int
	var sx, sy, sxx, syy, sxy float64
	each(func(x, y int) {
		if s.Pixels == 0 {
			x0, y0, x1, y1 = x, y, x, y
		}
		x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
		u, v := float64(x), float64(y)
		sx, sy, sxx, syy, sxy = sx+u, sy+v, sxx+u*u, syy+v*v, sxy+u*v
		s.Pixels++
	})
	if s.Pixels == 0 || height <= 0 {
		return Shape{}
	}
	n := float64(s.Pixels)
	mx, my := sx/n, sy/n
	s.Width, s.Height = float64(x1-x0+1)/height, float64(y1-y0+1)/height
	s.xx, s.yy, s.xy = (sxx/n-mx*mx)/(height*height), (syy/n-my*my)/(height*height), (sxy/n-mx*my)/(height*height)
	s.grid = newGrid(height, mx, my, each)
	return s
}

// newGrid lays a silhouette with its middle at (mx, my) on cells; one that is half
// covered counts.
func newGrid(height, mx, my float64, each func(f func(x, y int))) *grid {
	var count [side * side]uint16
	size := height / cells
	each(func(x, y int) {
		col, row := cellOf(float64(x)-mx, size), cellOf(float64(y)-my, size)
		if col >= 0 && row >= 0 && col < side && row < side {
			count[row*side+col]++
		}
	})
	g, half := new(grid), max(1, size*size/2)
	for i, n := range count {
		if float64(n) >= half {
			g[i/side] |= 1 << (i % side)
		}
	}
	return g
}

func cellOf(far, size float64) int { return int(math.Floor(far/size)) + side/2 }

// Like returns s, with the memory of t where both lie on the same cells.
func (s Shape) Like(t Shape) Shape {
	if s.grid != nil && t.grid != nil && *s.grid == *t.grid {
		s.grid = t.grid
	}
	return s
}

// shifted is g moved by some cells to the right and down.
func (g *grid) shifted(dx, dy int) (out grid) {
	for row := range g {
		if from := row - dy; from >= 0 && from < side {
			if dx >= 0 {
				out[row] = g[from] << dx
			} else {
				out[row] = g[from] >> -dx
			}
		}
	}
	return out
}

// overlap is intersection over union.
func (g *grid) overlap(o *grid) float64 {
	both, any := 0, 0
	for i := range g {
		both, any = both+bits.OnesCount64(g[i]&o[i]), any+bits.OnesCount64(g[i]|o[i])
	}
	if any == 0 {
		return 0
	}
	return float64(both) / float64(any)
}
