package camera

import (
	"math"
	"math/rand/v2"
	"testing"
)

// scatter makes n points over a 640 by 360 picture of which the given share
// follows s to the last bit; the others go anywhere.
func scatter(draw *rand.Rand, n int, follow float64, s Similarity) []point {
	var points []point
	for i := range n {
		p := point{x: draw.Float64()*640 - 320, y: draw.Float64()*360 - 180, cell: i}
		p.ny, p.nx = math.Sincos(draw.Float64() * 2 * math.Pi)
		x, y := s.Apply(p.x, p.y)
		if float64(i) >= follow*float64(n) {
			x, y = draw.Float64()*640-320, draw.Float64()*360-180
		}
		p.u, p.v = x-p.x, y-p.y
		points = append(points, p)
	}
	return points
}

// TestConsensusOverDraws is OpenCV's acceptance test of a similarity by RANSAC
// (100 points, 60 % outliers, matrix error at most 1e-4) over many motions
// within what a camera does from frame to frame.
func TestConsensusOverDraws(t *testing.T) {
	draw := rand.New(rand.NewPCG(17, 1))
	for trial := range 40 {
		z, a := 1+draw.Float64()*0.2-0.1, draw.Float64()*0.3-0.15
		want := Similarity{A: z * math.Cos(a), B: z * math.Sin(a), TX: draw.Float64()*60 - 30, TY: draw.Float64()*60 - 30}
		got := consensus(scatter(draw, 100, 0.4, want), Identity)
		for _, d := range []float64{got.A - want.A, got.B - want.B, got.TX - want.TX, got.TY - want.TY} {
			if !(math.Abs(d) <= 1e-4) {
				t.Errorf("trial %d: %+v, want %+v within 1e-4", trial, got, want)
				break
			}
		}
	}
}

// Few points must neither end in a panic nor in a wild motion.
func TestConsensusOfFewPoints(t *testing.T) {
	one := point{x: 10, y: 5, u: 40, v: 2, nx: 1}
	for name, points := range map[string][]point{
		"none": nil, "one": {one}, "one place twice": {one, one},
	} {
		if got := consensus(points, Identity); !plausible(got) || math.IsNaN(got.TX+got.TY) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// A guess wins ties: as long as most of the picture stands, points that go
// elsewhere do not move the camera.
func TestGuessStandsAgainstAMinority(t *testing.T) {
	draw := rand.New(rand.NewPCG(2, 3))
	points := scatter(draw, 70, 1, Identity)
	points = append(points, scatter(draw, 30, 1, Similarity{A: 1, TX: 8})...)
	if got := consensus(points, Identity); got != Identity {
		t.Errorf("30 of 100 points moved the camera: %+v", got)
	}
	moved := Similarity{A: 1, TX: 8}
	points = append(scatter(draw, 30, 1, Identity), scatter(draw, 70, 1, moved)...)
	got := consensus(points, Identity)
	near(t, "TX with 70 of 100 points on it", got.TX, 8, 1e-6)
}
