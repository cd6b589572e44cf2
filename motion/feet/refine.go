package feet

import (
	"math"

	"holdfast/motion/figure"
)

const (
	// refineSteps is how often a displacement is refined: the error falls tenfold
	// each time near the place.
	refineSteps = 3
	// refineReach is how far, in pixels, refining may go from the whole pixels it
	// starts from; farther off it has lost its way.
	refineReach = 1.0
	// refineDamp is the squared slope, in levels a pixel over the mean pixel, that
	// holds a displacement where the picture has no slope.
	refineDamp = 2.0
)

// refine takes a displacement of least misfit from whole pixels to fractions: B.
// Lucas, T. Kanade, "An Iterative Image Registration Technique", 1981. ok is false
// where it does not settle.
func (c *comparison) refine(dx, dy float64) (x, y float64, ok bool) {
	x, y = dx, dy
	for range refineSteps {
		var t normal
		c.gather(&t, x, y)
		u, v := t.solve()
		x, y = x+u, y+v
		if t.n == 0 || math.Abs(x-dx) > refineReach || math.Abs(y-dy) > refineReach {
			return dx, dy, false
		}
	}
	return x, y, true
}

// normal holds the sums of the least squares.
type normal struct{ xx, xy, yy, bx, by, n float64 }

func (t *normal) solve() (x, y float64) {
	hold := refineDamp * t.n
	xx, yy := t.xx+hold, t.yy+hold
	d := xx*yy - t.xy*t.xy
	if d == 0 {
		return 0, 0
	}
	return (yy*t.bx - t.xy*t.by) / d, (xx*t.by - t.xy*t.bx) / d
}

// gather sums over the window moved by (dx, dy).
func (c *comparison) gather(t *normal, dx, dy float64) {
	s := c.s
	from, to := s.Luma[c.a], s.Luma[c.b]
	was, is := s.mask(c.a, c.figure), s.mask(c.b, c.figure)
	lw := s.Bodies[c.a].W
	fx, fy := int(math.Floor(dx)), int(math.Floor(dy))
	u, v := dx-float64(fx), dy-float64(fy)
	for y := max(c.v.y0, 1, -fy); y <= min(c.v.y1, s.H-2, s.H-2-fy); y += c.stride {
		for x := max(c.v.x0, 1, -fx); x <= min(c.v.x1, s.W-2, s.W-2-fx); x += c.stride {
			if (was[y/figure.Shrink*lw+x/figure.Shrink] || is[(y+fy)/figure.Shrink*lw+(x+fx)/figure.Shrink]) != c.figure {
				continue
			}
			i, k := y*s.W+x, (y+fy)*s.W+x+fx
			up := (1-u)*float64(to[k]) + u*float64(to[k+1])
			down := (1-u)*float64(to[k+s.W]) + u*float64(to[k+s.W+1])
			d := float64(from[i]) - (1-v)*up - v*down
			if math.Abs(d) > misfitCap {
				continue
			}
			gx, gy := (float64(from[i+1])-float64(from[i-1]))/2, (float64(from[i+s.W])-float64(from[i-s.W]))/2
			t.xx, t.xy, t.yy = t.xx+gx*gx, t.xy+gx*gy, t.yy+gy*gy
			t.bx, t.by, t.n = t.bx+gx*d, t.by+gy*d, t.n+1
		}
	}
}
