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
	contrast float64 // variance of what was looked for, levels squared
	ok       bool    // a minimum inside the range that was looked at
}

// window is a rectangle of working pixels, ends included.
type window struct{ x0, y0, x1, y1 int }

func (v window) area() int { return (v.x1 - v.x0 + 1) * (v.y1 - v.y0 + 1) }

// misfitCap bounds what one pixel may say, levels: beyond it there is something
// else, and how different it is says nothing.
const misfitCap = 60

// overLimit leaves room for rounding before a displacement is given up.
const overLimit = 1 + 1e-9

// match finds where the figure's part inside v of frame a is in frame b, no
// farther than rx and ry pixels from where it would stand still.
func (w *walker) match(a, b int, v window, rx, ry int) shift {
	s := w.s
	cx, cy := w.still(a, b, float64(v.x0+v.x1)/2, float64(v.y0+v.y1)/2)
	ix, iy := int(math.Round(cx)), int(math.Round(cy))
	c := comparison{s: s, a: a, b: b, v: v, stride: 1, figure: true}
	m := search(rx, ry, 1, func(dx, dy int, limit float64) float64 { return c.misfit(ix+dx, iy+dy, limit) })
	if m.ok {
		if x, y, settled := c.refine(m.dx+float64(ix), m.dy+float64(iy)); settled {
			m.dx, m.dy = x-float64(ix), y-float64(iy)
		}
	}
	return shift{
		dx: m.dx + float64(ix) - cx, dy: m.dy + float64(iy) - cy,
		misfit: m.cost, contrast: s.contrast(a, v), ok: m.ok,
	}
}

// misfitAt is the misfit of the figure's part inside v of frame a with frame b where it
// has gone down by so many pixels.
func (w *walker) misfitAt(a, b int, v window, down int) float64 {
	cx, cy := w.still(a, b, float64(v.x0+v.x1)/2, float64(v.y0+v.y1)/2)
	c := comparison{s: w.s, a: a, b: b, v: v, stride: 1, figure: true}
	return c.misfit(int(math.Round(cx)), int(math.Round(cy))+down, math.Inf(1))
}

// drift is how far the still world goes at a place of frame a on the way to b.
func (s *Stretch) drift(a, b int, x, y float64) (float64, float64) {
	mx, my := float64(s.W-1)/2, float64(s.H-1)/2
	u, v := s.Path[a].Inverse().Apply(x-mx, y-my)
	u, v = s.Path[b].Apply(u, v)
	return u + mx - x, v + my - y
}

// A comparison is between a window of frame a and the same, moved, of frame b.
type comparison struct {
	s      *Stretch
	a, b   int
	v      window
	stride int  // pixels between those compared
	figure bool // what is figure in either frame counts; else what is bare ground in both

	from, to *bareGround // of bare ground: the window, and what it may be moved to
}

// misfit is the mean squared difference with the window moved by (dx, dy), some
// value over limit where it is more than that, infinite where nothing counts. Bare
// ground must be laid out first.
func (c *comparison) misfit(dx, dy int, limit float64) float64 {
	s := c.s
	x0, x1 := max(c.v.x0, 0, -dx), min(c.v.x1, s.W-1, s.W-1-dx)
	y0, y1 := max(c.v.y0, 0, -dy), min(c.v.y1, s.H-1, s.H-1-dy)
	width := max((x1-x0)/c.stride+1, 0)
	row := c.figureRow
	if !c.figure {
		row = c.bareRow
	}
	sum, n := 0, 0
	for y := y0; y <= y1; y += c.stride {
		more, m := row(y, x0, x1, dx, dy)
		sum, n = sum+more, n+m
		// The mean is no less than if all that is left counted and fitted.
		if left := (y1 - y) / c.stride * width; float64(sum) > limit*float64(n+left)*overLimit {
			return math.Inf(1)
		}
	}
	if n == 0 {
		return math.Inf(1)
	}
	return float64(sum) / float64(n)
}

// contrast is the variance of a window, levels squared.
func (s *Stretch) contrast(t int, w window) float64 {
	n, sum, squares := 0, 0, 0
	for y := max(w.y0, 0); y <= min(w.y1, s.H-1); y++ {
		for x := max(w.x0, 0); x <= min(w.x1, s.W-1); x++ {
			v := int(s.Luma[t][y*s.W+x])
			n, sum, squares = n+1, sum+v, squares+v*v
		}
	}
	if n == 0 {
		return 0
	}
	mean := float64(sum) / float64(n)
	return float64(squares)/float64(n) - mean*mean
}

// mask has a value for each pixel of the silhouette of frame t: whether it is
// figure, or, but for figures, whether it hides the ground.
func (s *Stretch) mask(t int, figures bool) []bool {
	cache, shapes := &s.covers, s.Covers
	if figures {
		cache, shapes = &s.bodies, s.Bodies
	}
	if *cache == nil {
		*cache = make([][]bool, len(shapes))
	}
	if (*cache)[t] == nil {
		(*cache)[t] = shapes[t].Pixels()
		if !figures {
			(*cache)[t] = grown((*cache)[t], shapes[t].W, s.penumbra())
		}
	}
	return (*cache)[t]
}

// figureAt reports whether a working pixel of frame t is figure.
func (s *Stretch) figureAt(t, x, y int) bool {
	return s.Bodies[t].At(x/figure.Shrink, y/figure.Shrink)
}

// penumbraShare is how far, in heights of the tallest figure, the soft rim of a
// shadow reaches beyond where it is dark enough to be seen.
const penumbraShare = 0.07

// penumbra is that in pixels of silhouettes.
func (s *Stretch) penumbra() int {
	tallest := 0.0
	for i := range s.Figures {
		tallest = max(tallest, s.Figures[i].HeightPx)
	}
	return int(math.Round(penumbraShare * tallest / figure.Shrink))
}

// grown marks all within n pixels, across or down, of what is marked in rows of w
// pixels.
func grown(p []bool, w, n int) []bool {
	return spread(spread(p, w, n, 1, w), w, n, w, len(p)/w)
}

// spread marks all within n strides of what is marked, in lines of the given
// length, one pixel in stride.
func spread(p []bool, w, n, stride, length int) []bool {
	out := make([]bool, len(p))
	for line := range len(p) / length {
		first := line * length
		if stride != 1 {
			first = line
		}
		reach := -1 // up to where what was marked reaches
		for i := -n; i < length; i++ {
			if k := i + n; k < length && p[first+k*stride] {
				reach = k + n
			}
			if i >= 0 && i <= reach {
				out[first+i*stride] = true
			}
		}
	}
	return out
}
