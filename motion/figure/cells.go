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

// cover returns the cells that a mask covers inside the boxes, in layer pixels.
func cover(m *Mask, grid *travel.Map, boxes []Box) Region {
	r := newRegion(grid)
	const side = travel.CellSide / Shrink
	for i := range r.Cells {
		x0, y0 := grid.Bounds(i)
		x0, y0 = x0/Shrink, y0/Shrink
		if !inside(boxes, x0+side/2, y0+side/2) {
			continue
		}
		n := 0
		for y := y0; y < min(y0+side, m.H); y++ {
			for x := x0; x < min(x0+side, m.W); x++ {
				if m.Pix[y*m.W+x] != 0 {
					n++
				}
			}
		}
		r.Cells[i] = float64(n) >= cellShare*side*side
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
