package feet

import (
	"math"

	"holdfast/motion/figure"
)

// A shift is how far something went from one frame to the next against the
// still world, working pixels.
type shift struct {
	dx, dy   float64
	misfit   float64 // mean squared difference that is left, levels squared
	contrast float64 // the same had everything gone
	ok       bool    // a minimum inside the range that was looked at
}

// window is a rectangle of working pixels, ends included.
type window struct{ x0, y0, x1, y1 int }

// misfitCap bounds what one pixel may say, levels: beyond it there is something
// else, and how different it is says nothing.
const misfitCap = 60.0

// match finds where the figure's part inside w of frame a is in frame b, no
// farther than rx and ry pixels from where it would stand still.
func (w *walker) match(a, b int, v window, rx, ry int) shift {
	s := w.s
	cx, cy := w.still(a, b, float64(v.x0+v.x1)/2, float64(v.y0+v.y1)/2)
	ix, iy := int(math.Round(cx)), int(math.Round(cy))
	nx, ny := 2*rx+1, 2*ry+1
	cost := make([]float64, nx*ny)
	best := -1
	for j := range ny {
		for i := range nx {
			c := s.misfit(a, b, v, ix+i-rx, iy+j-ry)
			cost[j*nx+i] = c
			if best < 0 || c < cost[best] {
				best = j*nx + i
			}
		}
	}
	i, j := best%nx, best/nx
	out := shift{misfit: cost[best], contrast: s.contrast(a, v)}
	fx, fy := float64(i-rx), float64(j-ry)
	out.ok = i > 0 && j > 0 && i < nx-1 && j < ny-1 && !math.IsInf(cost[best], 1)
	if out.ok {
		fx += vertex(cost[best-1], cost[best], cost[best+1])
		fy += vertex(cost[best-nx], cost[best], cost[best+nx])
	}
	out.dx, out.dy = fx+float64(ix)-cx, fy+float64(iy)-cy
	return out
}

// vertex is where the parabola through three values at -1, 0 and 1 is least.
func vertex(a, b, c float64) float64 {
	d := a - 2*b + c
	if d <= 0 || math.IsInf(d, 0) {
		return 0
	}
	return (a - c) / (2 * d)
}

// drift is how far the still world goes at a place of frame a on the way to b.
func (s *Stretch) drift(a, b int, x, y float64) (float64, float64) {
	mx, my := float64(s.W-1)/2, float64(s.H-1)/2
	u, v := s.Path[a].Inverse().Apply(x-mx, y-my)
	u, v = s.Path[b].Apply(u, v)
	return u + mx - x, v + my - y
}

// misfit is the mean squared difference, over what is figure in either frame, of
// a window in frame a and the same moved in b.
func (s *Stretch) misfit(a, b int, w window, dx, dy int) float64 {
	from, to := s.Luma[a], s.Luma[b]
	sum, n := 0.0, 0
	for y := max(w.y0, 0, -dy); y <= min(w.y1, s.H-1, s.H-1-dy); y++ {
		for x := max(w.x0, 0, -dx); x <= min(w.x1, s.W-1, s.W-1-dx); x++ {
			if !s.figureAt(a, x, y) && !s.figureAt(b, x+dx, y+dy) {
				continue
			}
			d := math.Abs(float64(from[y*s.W+x]) - float64(to[(y+dy)*s.W+x+dx]))
			d = min(d, misfitCap)
			sum += d * d
			n++
		}
	}
	if n == 0 {
		return math.Inf(1)
	}
	return sum / float64(n)
}

func (s *Stretch) figureAt(t, x, y int) bool {
	return s.Bodies[t].At(x/figure.Shrink, y/figure.Shrink)
}

// contrast is the variance of a window, levels squared.
func (s *Stretch) contrast(t int, w window) float64 {
	var n, sum, squares float64
	for y := max(w.y0, 0); y <= min(w.y1, s.H-1); y++ {
		for x := max(w.x0, 0); x <= min(w.x1, s.W-1); x++ {
			v := float64(s.Luma[t][y*s.W+x])
			n, sum, squares = n+1, sum+v, squares+v*v
		}
	}
	if n == 0 {
		return 0
	}
	return squares/n - sum*sum/(n*n)
}
