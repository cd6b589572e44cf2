package camera

import (
	"math"
	"math/rand/v2"
)

// consensusTries is how many pairs of points are tried. With half of the
// points on the camera's motion a pair is good one time in four, so that 200
// tries miss with odds of 1 in 10^25; with a quarter, 1 in 400,000.
const consensusTries = 200

// consensusPixels is how far, along the slope, a point may lie from the model
// and still belong to it: three times the error of the dense flow (about
// 0.25 px) ...
const consensusPixels = 0.75

// consensusShare ... plus this share of its own displacement, since the error
// of dense flow grows with it.
const consensusShare = 0.04

// consensusLead is the share of the points by which a drawn motion must beat
// the guesses. A figure is seldom more of the picture than this, and camera
// motion small enough for the guess to hold is left to the refinement.
const consensusLead = 0.1

// consensus returns the similarity that most of the points follow, by random
// samples of two: M. Fischler, R. Bolles, "Random Sample Consensus", 1981,
// scored by truncated squares (P. Torr, A. Zisserman, "MLESAC", 2000). guesses are tried first and win
// ties. The draws are the same on every run.
func consensus(points []point, guesses ...Similarity) Similarity {
	best, least := Identity, math.Inf(1)
	try := func(s Similarity) {
		if c := cost(points, s, least); c < least {
			best, least = s, c
		}
	}
	for _, g := range guesses {
		try(g)
	}
	least -= consensusLead * float64(len(points))
	if len(points) < 2 {
		return best
	}
	draw := rand.New(rand.NewPCG(1, uint64(len(points))))
	for range consensusTries {
		p, q := &points[draw.IntN(len(points))], &points[draw.IntN(len(points))]
		s, ok := Between(
			[2]float64{p.x, p.y}, [2]float64{q.x, q.y},
			[2]float64{p.x + p.u, p.y + p.v}, [2]float64{q.x + q.u, q.y + q.v})
		if ok && plausible(s) {
			try(s)
		}
	}
	return best
}

// maxZoomStep bounds the change of scale from one frame to the next, and
// maxRollStep the turn, in radians: a crash zoom doubles the picture in about
// 8 frames, and a roll of a quarter turn takes as long (common practice, no
// source).
const (
	maxZoomStep = 1.15
	maxRollStep = 0.2
)

func plausible(s Similarity) bool {
	z := s.Scale()
	return z < maxZoomStep && z > 1/maxZoomStep && math.Abs(math.Atan2(s.B, s.A)) < maxRollStep
}

// cost sums the squared misfit of all points, each in units of its tolerance
// and at most 1; it stops early once it is over limit.
func cost(points []point, s Similarity, limit float64) float64 {
	sum := 0.0
	for i := range points {
		r := points[i].misfit(s)
		sum += math.Min(r*r, 1)
		if sum >= limit {
			return math.Inf(1)
		}
	}
	return sum
}

// misfit is the distance along the slope between where the point went and
// where s sends it, in units of the tolerance.
func (p *point) misfit(s Similarity) float64 {
	x, y := s.Apply(p.x, p.y)
	r := (p.x+p.u-x)*p.nx + (p.y+p.v-y)*p.ny
	return r / (consensusPixels + consensusShare*math.Hypot(p.u, p.v))
}
