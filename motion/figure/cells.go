package figure

import "holdfast/motion/travel"

// cellShare is the share of a cell's pixels that must be figure for the cell
// to belong to it: a finger's width across it.
const cellShare = 0.15

// A Region is a set of the cells of a travel.Map.
type Region struct {
	Cols, Rows int
	Cells      []bool
}

func newRegion(m *travel.Map) Region {
	return Region{m.Cols, m.Rows, make([]bool, m.Cols*m.Rows)}
}

// cellSide and cellArea are the side and the area of a cell in layer pixels.
const (
	cellSide = travel.CellSide / Shrink
	cellArea = cellSide * cellSide
)

// cellAreas returns how many pixels of the mask lie in each cell.
func cellAreas(m *Mask, grid *travel.Map) []uint8 {
	areas := make([]uint8, grid.Cols*grid.Rows)
	for i := range areas {
		x0, y0 := grid.Bounds(i)
		x0, y0 = x0/Shrink, y0/Shrink
		for y := y0; y < min(y0+cellSide, m.H); y++ {
			for x := x0; x < min(x0+cellSide, m.W); x++ {
				if m.Pix[y*m.W+x] != 0 {
					areas[i]++
				}
			}
		}
	}
	return areas
}

// cover returns the cells inside the boxes, in layer pixels, that a mask of the
// given cell areas covers.
func cover(areas []uint8, grid *travel.Map, boxes []Box) Region {
	r := newRegion(grid)
	for i := range r.Cells {
		x0, y0 := grid.Bounds(i)
		r.Cells[i] = float64(areas[i]) >= cellShare*cellArea && inside(boxes, x0/Shrink+cellSide/2, y0/Shrink+cellSide/2)
	}
	return r
}

func inside(boxes []Box, x, y int) bool {
	for _, b := range boxes {
		if b.near(x, y) {
			return true
		}
	}
	return false
}

// Add joins the cells of s to r.
func (r Region) Add(s Region) {
	for i, v := range s.Cells {
		r.Cells[i] = r.Cells[i] || v
	}
}

// Grown returns r with every neighbour of its cells added.
func (r Region) Grown() Region {
	g := Region{r.Cols, r.Rows, make([]bool, len(r.Cells))}
	for i, v := range r.Cells {
		if !v {
			continue
		}
		col, row := i%r.Cols, i/r.Cols
		for y := max(0, row-1); y <= min(r.Rows-1, row+1); y++ {
			for x := max(0, col-1); x <= min(r.Cols-1, col+1); x++ {
				g.Cells[y*r.Cols+x] = true
			}
		}
	}
	return g
}

// bounds is the box, in layer pixels, around the cells of r.
func (r Region) bounds(grid *travel.Map) Box {
	var b Box
	for i, in := range r.Cells {
		if in {
			x, y := grid.Bounds(i)
			x, y = x/Shrink, y/Shrink
			b = b.Union(Box{x, y, x + cellSide, y + cellSide})
		}
	}
	return b
}

// Size returns how many cells r holds.
func (r Region) Size() int {
	n := 0
	for _, v := range r.Cells {
		if v {
			n++
		}
	}
	return n
}
