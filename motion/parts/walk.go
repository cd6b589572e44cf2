package parts

import (
	"image"
	"math"
	"slices"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
	"holdfast/motion/rank"
)

const (
	// gridSide is how many points a side a part is followed by: some fifty in all, as
	// many as median flow needs (Z. Kalal et al., 2010, use a hundred).
	gridSide = 7
	// gridInset is how far inside the box, in shares of its sides, the outer points lie.
	gridInset = 0.08
	// leastPoints is the fewest points that say where a part went.
	leastPoints = 6
	// missedShare is by how much, in shares of the box's shorter side, points may miss
	// where they came from, and missedLeast the least of it, pixels: the part is lost.
	missedShare, missedLeast = 0.07, 0.7
	// stirs is how far a point must go against the still world to have moved, pixels.
	stirs = 0.5
	// stirring is the share of the points from which those that move are the part and
	// the others the ground behind it: a box around a hand is half ground.
	stirring = 0.25
	// scaleMost is by how much a part may grow or shrink from frame to frame.
	scaleMost = 1.06
	// squareShare is the side of the square compared around a point in shares of the
	// box's shorter side, squareLeast and squareMost the bounds of it, pixels.
	squareShare             = 0.4
	squareLeast, squareMost = 7, 15
)

// A way is how a part went from one frame to another.
type way struct {
	dx, dy, scale float64 // of its box, pixels
	cx, cy        float64 // of the still world there
	travel        float64 // mean of its points against the still world, pixels
}

// walk follows a box over a hop. guess is where it may go. Where only some of what is
// in the box moves, that is either the part before still ground or something in the
// part, such as the face on a head that turns: both ways are told.
func walk(h hop, b Box, guess flow.Point) ([]way, error) {
	at := grid(b, h.onFrom)
	went, missed, err := flow.PointsBy(h.from, h.to, at, squareSide(b), guess)
	if err != nil || len(at) < leastPoints {
		return nil, err
	}
	limit := missedLimit(b)
	var by []drift
	for i, p := range at {
		if missed[i] <= limit {
			cx, cy := worldStep(h.still, p, h.from.Rect.Size())
			by = append(by, drift{p, went[i], cx, cy})
		}
	}
	// Where fewer than a third come back, what there was is gone.
	if len(by) < leastPoints || 3*len(by) < textured(missed) {
		return nil, nil
	}
	ways := []way{h.way(b, by)}
	if some := moving(by); len(some) < len(by) {
		ways = append(ways, h.way(b, some))
	}
	return ways, nil
}

// way is the way of a box over the hop by some of its points.
func (h hop) way(b Box, by []drift) (w way) {
	w.dx, w.dy = median(by, func(d drift) float64 { return d.to.X - d.from.X }), median(by, func(d drift) float64 { return d.to.Y - d.from.Y })
	w.scale = growth(by)
	w.cx, w.cy = worldStep(h.still, b.middle(), h.from.Rect.Size())
	for _, d := range by {
		w.travel += d.against() / float64(len(by))
	}
	return w
}

// A drift is the way of one point.
type drift struct {
	from, to flow.Point
	cx, cy   float64 // of the still world there
}

// against is how far the point went against the still world.
func (d drift) against() float64 { return math.Hypot(d.to.X-d.from.X-d.cx, d.to.Y-d.from.Y-d.cy) }

// squareSide is an odd number of pixels, as a point in the middle wants.
func squareSide(b Box) int {
	return max(squareLeast, min(squareMost, int(squareShare*min(b.W, b.H))|1))
}

func missedLimit(b Box) float64 { return max(missedLeast, missedShare*min(b.W, b.H)) }

// grid are the points by which what is in a box is followed: those on a figure,
// where it is known what is.
func grid(b Box, on func(x, y int) bool) []flow.Point {
	var list []flow.Point
	for i := range gridSide * gridSide {
		u := gridInset + (1-2*gridInset)*float64(i%gridSide)/(gridSide-1)
		v := gridInset + (1-2*gridInset)*float64(i/gridSide)/(gridSide-1)
		p := flow.Point{X: b.X + u*b.W, Y: b.Y + v*b.H}
		if on == nil || on(int(p.X), int(p.Y)) {
			list = append(list, p)
		}
	}
	return list
}

// filled is the share of a box that is a figure's.
func filled(b Box, on func(x, y int) bool) float64 {
	return float64(len(grid(b, on))) / (gridSide * gridSide)
}

// textured is how many points could be found again at all.
func textured(missed []float64) int {
	n := 0
	for _, m := range missed {
		if !math.IsInf(m, 1) {
			n++
		}
	}
	return n
}

// moving returns those points that go against the still world, where they are enough
// to be the part, else all.
func moving(by []drift) []drift {
	var list []drift
	for _, d := range by {
		if d.against() > stirs {
			list = append(list, d)
		}
	}
	if len(list) >= leastPoints && float64(len(list)) >= stirring*float64(len(by)) {
		return list
	}
	return by
}

// growth is the median change of the distances between points.
func growth(by []drift) float64 {
	var ratios []float64
	for i, a := range by {
		for _, b := range by[i+1:] {
			before := math.Hypot(a.from.X-b.from.X, a.from.Y-b.from.Y)
			ratios = append(ratios, math.Hypot(a.to.X-b.to.X, a.to.Y-b.to.Y)/before)
		}
	}
	slices.Sort(ratios)
	return max(1/scaleMost, min(scaleMost, ratios[len(ratios)/2]))
}

// worldStep is how far the still world goes at a place of a picture of some size.
func worldStep(still camera.Similarity, p flow.Point, size image.Point) (dx, dy float64) {
	mx, my := float64(size.X-1)/2, float64(size.Y-1)/2
	x, y := still.Apply(p.X-mx, p.Y-my)
	return x + mx - p.X, y + my - p.Y
}

func median(by []drift, of func(drift) float64) float64 {
	var v []float64
	for _, d := range by {
		v = append(v, of(d))
	}
	return rank.Median(v)
}
