package camera

import (
	"math"
	"math/rand/v2"
	"testing"
)

// anySimilarity draws a similarity with scales of 1/3 to 3 and any turn.
func anySimilarity(draw *rand.Rand) Similarity {
	z, a := math.Exp(draw.Float64()*2.2-1.1), draw.Float64()*2*math.Pi
	return Similarity{A: z * math.Cos(a), B: z * math.Sin(a), TX: draw.Float64()*400 - 200, TY: draw.Float64()*400 - 200}
}

// sameMap fails where two maps send some point of a picture apart.
func sameMap(t *testing.T, what string, s, u Similarity) {
	t.Helper()
	for _, p := range [][2]float64{{0, 0}, {320, 0}, {0, -180}, {-77, 133}} {
		x, y := s.Apply(p[0], p[1])
		v, w := u.Apply(p[0], p[1])
		if !(math.Hypot(x-v, y-w) < 1e-8) {
			t.Errorf("%s: %v goes to (%g, %g) by one and (%g, %g) by the other", what, p, x, y, v, w)
			return
		}
	}
}

// The laws of a group, and what a similarity is: all lengths times one scale.
func TestSimilarityLaws(t *testing.T) {
	draw := rand.New(rand.NewPCG(21, 4))
	for range 300 {
		a, b, c := anySimilarity(draw), anySimilarity(draw), anySimilarity(draw)
		sameMap(t, "a then its inverse", a.Then(a.Inverse()), Identity)
		sameMap(t, "the inverse then a", a.Inverse().Then(a), Identity)
		sameMap(t, "inverse of the inverse", a.Inverse().Inverse(), a)
		sameMap(t, "association", a.Then(b).Then(c), a.Then(b.Then(c)))
		sameMap(t, "inverse of a product", a.Then(b).Inverse(), b.Inverse().Then(a.Inverse()))
		sameMap(t, "nothing before", Identity.Then(a), a)
		sameMap(t, "nothing after", a.Then(Identity), a)
		near(t, "scale of a product", a.Then(b).Scale(), a.Scale()*b.Scale(), 1e-9)

		p, q := [2]float64{draw.Float64() * 100, draw.Float64() * 100}, [2]float64{-draw.Float64() * 100, 3}
		px, py := a.Apply(p[0], p[1])
		qx, qy := a.Apply(q[0], q[1])
		near(t, "length", math.Hypot(px-qx, py-qy), a.Scale()*math.Hypot(p[0]-q[0], p[1]-q[1]), 1e-9)
		s, ok := Between(p, q, [2]float64{px, py}, [2]float64{qx, qy})
		if !ok {
			t.Fatalf("no map between %v, %v and their images", p, q)
		}
		sameMap(t, "the map through two points", s, a)
		if t.Failed() {
			return
		}
	}
}

func TestBetweenOnePoint(t *testing.T) {
	p, q := [2]float64{3, 4}, [2]float64{8, -1}
	if _, ok := Between(p, p, p, q); ok {
		t.Error("one point goes to two")
	}
	if _, ok := Between(p, q, p, p); ok {
		t.Error("two points go to one")
	}
}

// Step's own definition: p of the still world is seen at
// Zoom*R(Roll)*p - (DX, DY), from the middle of the picture.
func TestStepIsThatOfItsDefinition(t *testing.T) {
	draw := rand.New(rand.NewPCG(5, 9))
	for range 100 {
		s := anySimilarity(draw)
		st := s.Step()
		sin, cos := math.Sincos(st.Roll * math.Pi / 180)
		sameMap(t, "step", Similarity{A: st.Zoom * cos, B: st.Zoom * sin, TX: -st.DX, TY: -st.DY}, s)
		if t.Failed() {
			return
		}
	}
}

// The corners of a picture of 640 by 360 are 367.15 pixels from its middle.
func TestReach(t *testing.T) {
	corner := math.Hypot(320, 180)
	for name, c := range map[string]struct {
		s    Similarity
		want float64
	}{
		"nothing":      {Identity, 0},
		"shift":        {Similarity{A: 1, TX: 3, TY: -4}, 5},
		"half turn":    {Similarity{A: -1}, 2 * corner},
		"quarter turn": {Similarity{B: 1}, math.Sqrt2 * corner},
		"push":         {Similarity{A: 1.01}, 0.01 * corner},
		// The corner that the push moves by 0.02 * (320, 180) and the shift further on.
		"push and shift": {Similarity{A: 1.02, TX: 1}, math.Hypot(7.4, 3.6)},
	} {
		near(t, name, c.s.Reach(640, 360), c.want, 1e-9)
	}
}
