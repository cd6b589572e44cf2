package feet

import (
	"math"
	"runtime"

	"holdfast/motion/camera"
)

// A camera that travels moves the ground at a figure's feet by another way than
// the set behind it, and the camera's path says only one of them. So the ground
// is matched by itself where the camera moves.

const (
	// groundAcross, groundUp and groundDown are how far around a foot, in figure
	// heights, the ground is looked at: as near to its depth as has texture.
	groundAcross, groundUp, groundDown = 0.8, 0.04, 0.12
	// groundReach is how far, in figure heights, the ground may go beside the
	// camera's path from frame to frame.
	groundReach = 0.03
	// groundStride is the distance, pixels, between the pixels that are compared;
	// odd, so that no pattern is favoured.
	groundStride = 3
	// groundCell is the side, pixels, of the squares that share one answer.
	groundCell = 16
)

// groundHands is how many search for the ground at once, which takes some
// milliseconds.
func groundHands() int { return min(runtime.GOMAXPROCS(0), 8) }

// groundKey names one question that has been answered.
type groundKey struct{ a, b, x, y int }

// parallax is how far the ground at a place of frame a goes beside the camera's
// path on the way to frame b, pixels.
func (w *walker) parallax(a, b int, x, y float64) (dx, dy float64) {
	if !w.s.outlined() || w.s.Path[a] == camera.Identity && w.s.Path[b] == camera.Identity {
		return 0, 0
	}
	key := groundKey{a, b, int(x) / groundCell, int(y) / groundCell}
	if d, ok := w.ground[key]; ok {
		return d.x, d.y
	}
	d := w.matchGround(a, b, x, y)
	w.ground[key] = d
	return d.x, d.y
}

func (w *walker) matchGround(a, b int, x, y float64) place {
	s := w.s
	cx, cy := s.drift(a, b, x, y)
	ix, iy := int(math.Round(cx)), int(math.Round(cy))
	n := func(share float64) int { return int(math.Round(share * w.tallIn(a))) }
	px, py := int(x), int(y)
	v := window{px - n(groundAcross), py - n(groundUp), px + n(groundAcross), py + n(groundDown)}
	r := max(2, int(math.Ceil(groundReach*w.tallIn(a))))
	c := comparison{s: s, a: a, b: b, v: v, stride: groundStride}
	c.layOut(ix, iy, r)
	m := search(r, r, groundHands(), func(dx, dy int, limit float64) float64 { return c.misfit(ix+dx, iy+dy, limit) })
	if !m.ok {
		return place{}
	}
	c.stride = 1
	rx, ry, settled := c.refine(m.dx+float64(ix), m.dy+float64(iy))
	if !settled {
		return place{}
	}
	return place{rx - cx, ry - cy}
}

// still is where a place of frame a that stands on the ground is in frame b,
// from there.
func (w *walker) still(a, b int, x, y float64) (dx, dy float64) {
	dx, dy = w.s.drift(a, b, x, y)
	px, py := w.parallax(a, b, x, y)
	return dx + px, dy + py
}

// carry is where a place of frame a that stands on the ground is in frame b, by
// way of all frames between them: a hold may be long, and the ground's own way
// through the picture is matched but from frame to frame.
func (w *walker) carry(p place, a, b int) place {
	for a != b {
		next := a + 1
		if b < a {
			next = a - 1
		}
		dx, dy := w.still(a, next, p.x, p.y)
		p, a = place{p.x + dx, p.y + dy}, next
	}
	return p
}
