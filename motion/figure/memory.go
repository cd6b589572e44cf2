package figure

import (
	"math"

	"holdfast/motion/figure/cut"
)

// Where a figure walks away from, and what it walks in front of, the ground has
// been seen before. What looks as it did there is ground, however like the figure
// its colours are. Ground that moves is never seen again, and does no harm.

const (
	// memoryShare is how much a frame counts for against what is remembered.
	memoryShare = 0.25
	// memoryReach is how far around a pixel, layer pixels, all must on the mean look
	// as it did.
	memoryReach = 1
	// memoryBeside is how far from the figure, layer pixels, the ground is sure.
	memoryBeside = 3
	// memoryStrays is how many times more than it usually does something must differ
	// from the ground to be none.
	memoryStrays = 4.0
)

// A memory is how the ground looked where it was seen, on the canvas.
type memory struct {
	tones  [][channelSeen]float32
	strays []float32 // levels by which it differs from one time to the next
	known  []bool
}

func newMemory(wd *world) memory {
	n := wd.size.X * wd.size.Y
	return memory{make([][channelSeen]float32, n), make([]float32, n), make([]bool, n)}
}

// take takes in that canvas pixel i looks like p.
func (m *memory) take(i int, p []uint8) {
	share := float32(memoryShare)
	if m.known[i] {
		m.strays[i] += share * (m.apart(i, p) - m.strays[i])
	} else {
		m.known[i], share = true, 1
	}
	for k := range channelSeen {
		m.tones[i][k] += share * (float32(p[k]) - m.tones[i][k])
	}
}

// apart is how much p differs from canvas pixel i, levels.
func (m *memory) apart(i int, p []uint8) float32 {
	g := &m.tones[i]
	d := math.Abs(float64(p[channelY]) - float64(g[channelY]))
	d = max(d, chromaWeight*math.Abs(float64(p[channelCb])-float64(g[channelCb])))
	return float32(max(d, chromaWeight*math.Abs(float64(p[channelCr])-float64(g[channelCr]))))
}

// onCanvas is the index of the canvas pixel that pixel (x, y) of frame t shows.
func (wd *world) onCanvas(t, x, y int) (int, bool) {
	if wd.still {
		return y*wd.w + x, true
	}
	fx, fy := wd.place(t, float64(x), float64(y))
	cx, cy := int(math.Round(fx)), int(math.Round(fy))
	return cy*wd.size.X + cx, cx >= 0 && cy >= 0 && cx < wd.size.X && cy < wd.size.Y
}

// remember takes in the ground of frame t, in which s is the figure.
func (c *cutter) remember(s *shape, t int) {
	l := c.layers[t]
	beside := s.box.Grow(memoryBeside)
	for y := range l.H {
		for x := range l.W {
			if beside.near(x, y) && s.nearBy(x, y, l.W, l.H, memoryBeside) {
				continue
			}
			if i, ok := c.world.onCanvas(t, x, y); ok {
				c.ground.take(i, l.Pix[(y*l.W+x)*channels:])
			}
		}
	}
}

// nearBy reports whether the figure is within reach of a pixel.
func (s *shape) nearBy(x, y, w, h, reach int) bool {
	for v := max(0, y-reach); v <= min(h-1, y+reach); v++ {
		for u := max(0, x-reach); u <= min(w-1, x+reach); u++ {
			if cut.IsThing(s.pix[v*w+u]) {
				return true
			}
		}
	}
	return false
}

// recognise makes sure what is doubtful of s in frame t by the memory of the
// ground: what looks as that did is ground, and what flow takes for the figure and
// looks otherwise is the figure.
func (c *cutter) recognise(s *shape, t int) {
	l := c.layers[t]
	for i, v := range s.pix {
		if v != cut.LikelyThing && v != cut.LikelyGround {
			continue
		}
		apart, usual, ok := c.unlike(l, t, i%l.W, i/l.W)
		switch {
		case !ok:
		case apart < leastFigure:
			s.pix[i] = cut.Ground
		case v == cut.LikelyThing && apart >= max(leastFigure, memoryStrays*usual):
			s.pix[i] = cut.Thing
		}
	}
}

// unlike is how much frame t differs at a pixel, and around it, from what is
// remembered there, and how much that usually differs, levels; ok is false where
// that is not known.
func (c *cutter) unlike(l *Layer, t, x, y int) (apart, usual float32, ok bool) {
	n := float32(0)
	for v := max(0, y-memoryReach); v <= min(l.H-1, y+memoryReach); v++ {
		for u := max(0, x-memoryReach); u <= min(l.W-1, x+memoryReach); u++ {
			i, ok := c.world.onCanvas(t, u, v)
			if !ok || !c.ground.known[i] {
				return 0, 0, false
			}
			apart, usual, n = apart+c.ground.apart(i, l.Pix[(v*l.W+u)*channels:]), usual+c.ground.strays[i], n+1
		}
	}
	return apart / n, usual / n, true
}
