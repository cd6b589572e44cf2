package feet

import "holdfast/motion/figure"

// A bareGround holds the levels of bare ground in a part of a frame, laid out for
// being gone through many times.
type bareGround struct {
	left, top     int
	width, height int
	levels        []int16 // hiddenLevel where the ground is hidden
}

// hiddenLevel is negative, as no level is.
const hiddenLevel = -1

// bareGround lays out the part of frame t that is inside the picture and a
// rectangle.
func (s *Stretch) bareGround(t int, v window) *bareGround {
	v = window{max(v.x0, 0), max(v.y0, 0), min(v.x1, s.W-1), min(v.y1, s.H-1)}
	g := &bareGround{left: v.x0, top: v.y0, width: max(v.x1-v.x0+1, 0), height: max(v.y1-v.y0+1, 0)}
	hidden, lw := s.mask(t, false), s.Bodies[t].W
	g.levels = make([]int16, 0, g.width*g.height)
	for y := v.y0; y <= v.y1; y++ {
		row, over := s.Luma[t][y*s.W:], hidden[y/figure.Shrink*lw:]
		for x := v.x0; x <= v.x1; x++ {
			level := int16(row[x])
			if over[uint(x)/figure.Shrink] {
				level = hiddenLevel
			}
			g.levels = append(g.levels, level)
		}
	}
	return g
}

// row is the levels of row y from column x on.
func (g *bareGround) row(x, y int) []int16 {
	return g.levels[(y-g.top)*g.width+x-g.left : (y-g.top+1)*g.width]
}

// layOut makes comparisons of bare ground for displacements of up to r from (ix,
// iy) cheap.
func (c *comparison) layOut(ix, iy, r int) {
	c.from = c.s.bareGround(c.a, c.v)
	c.to = c.s.bareGround(c.b, window{c.v.x0 + ix - r, c.v.y0 + iy - r, c.v.x1 + ix + r, c.v.y1 + iy + r})
}

// bareRow adds up the squared differences of bare ground in row y of frame a from
// column x0 to x1 with the window moved by (dx, dy), and how many pixels they are
// of.
func (c *comparison) bareRow(y, x0, x1, dx, dy int) (sum, n int) {
	if x1 < x0 {
		return 0, 0
	}
	from, to := c.from.row(x0, y)[:x1-x0+1], c.to.row(x0+dx, y+dy)[:x1-x0+1]
	for i := 0; i < len(from); i += c.stride {
		was, is := from[i], to[i]
		if was|is < 0 {
			continue
		}
		d := int(was) - int(is)
		d = min(max(d, -d), misfitCap)
		sum += d * d
		n++
	}
	return sum, n
}

// figureRow is the same of what is figure in either frame.
func (c *comparison) figureRow(y, x0, x1, dx, dy int) (sum, n int) {
	s := c.s
	lw := s.Bodies[c.a].W
	row, next := s.Luma[c.a][y*s.W:], s.Luma[c.b][(y+dy)*s.W:]
	in, out := s.mask(c.a, true)[y/figure.Shrink*lw:], s.mask(c.b, true)[(y+dy)/figure.Shrink*lw:]
	for x := x0; x <= x1; x += c.stride {
		// Neither is negative: unsigned division is a shift.
		if !in[uint(x)/figure.Shrink] && !out[uint(x+dx)/figure.Shrink] {
			continue
		}
		d := int(row[x]) - int(next[x+dx])
		d = min(max(d, -d), misfitCap)
		sum += d * d
		n++
	}
	return sum, n
}
