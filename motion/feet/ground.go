package feet

import (
	"math"

	"holdfast/motion/camera"
)

// A camera that travels moves the ground at a figure's feet by another way than
// the set behind it, and the camera's path says only one of them. So the ground
// is matched by itself where the camera moves.

const (
	// groundAcross, groundUp and groundDown are how far around a foot, in figure
	// heights, the ground is looked at: as near to its depth as has texture.
	groundAcross, groundUp, groundDown = 0.4, 0.04, 0.12
	// groundReach is how far, in figure heights, the ground may go beside the
	// camera's path from frame to frame.
	groundReach = 0.03
	// groundStride is the distance, pixels, between the pixels that are compared;
	// odd, so that no pattern is favoured.
	groundStride = 3
	// groundTell is how many times larger the misfit must be a pixel beside the
	// best place for that place to be told.
	groundTell = 1.3
	// groundCell is the side, pixels, of the squares that share one answer.
	groundCell = 16
)

// groundKey names one question that has been answered.
type groundKey struct{ a, b, x, y int }

// parallax is how far the ground at a place of frame a goes beside the camera's
// path on the way to frame b, pixels.
func (w *walker) parallax(a, b int, x, y float64) (dx, dy float64) {
	if w.s.Path[a] == camera.Identity && w.s.Path[b] == camera.Identity {
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
	n := func(share float64) int { return int(math.Round(share * w.height)) }
	px, py := int(x), int(y)
	v := window{px - n(groundAcross), py - n(groundUp), px + n(groundAcross), py + n(groundDown)}
	r := max(2, int(math.Ceil(groundReach*w.height)))
	side := 2*r + 1
	cost := make([]float64, side*side)
	best := 0
	for i := range cost {
		cost[i] = s.bareMisfit(a, b, v, ix+i%side-r, iy+i/side-r)
		if cost[i] < cost[best] {
			best = i
		}
	}
	i, j := best%side, best/side
	if i == 0 || j == 0 || i == side-1 || j == side-1 || math.IsInf(cost[best], 1) {
		return place{}
	}
	var d place
	if told(cost[best-1], cost[best], cost[best+1]) {
		d.x = float64(i-r+ix) + vertex(cost[best-1], cost[best], cost[best+1]) - cx
	}
	if told(cost[best-side], cost[best], cost[best+side]) {
		d.y = float64(j-r+iy) + vertex(cost[best-side], cost[best], cost[best+side]) - cy
	}
	return d
}

func told(l, m, r float64) bool { return min(l, r) >= groundTell*m }

// bareMisfit is the mean squared difference, over what is figure in neither
// frame, of a window in frame a and the same moved in b.
func (s *Stretch) bareMisfit(a, b int, w window, dx, dy int) float64 {
	from, to := s.Luma[a], s.Luma[b]
	sum, n := 0.0, 0
	for y := max(w.y0, 0, -dy); y <= min(w.y1, s.H-1, s.H-1-dy); y += groundStride {
		for x := max(w.x0, 0, -dx); x <= min(w.x1, s.W-1, s.W-1-dx); x += groundStride {
			if s.figureAt(a, x, y) || s.figureAt(b, x+dx, y+dy) {
				continue
			}
			d := min(misfitCap, math.Abs(float64(from[y*s.W+x])-float64(to[(y+dy)*s.W+x+dx])))
			sum += d * d
			n++
		}
	}
	if n == 0 {
		return math.Inf(1)
	}
	return sum / float64(n)
}

// still is where a place of frame a that stands on the ground is in frame b,
// from there.
func (w *walker) still(a, b int, x, y float64) (dx, dy float64) {
	dx, dy = w.s.drift(a, b, x, y)
	px, py := w.parallax(a, b, x, y)
	return dx + px, dy + py
}
