package camera

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, within)
	}
}

func TestSimilarityInverseUndoes(t *testing.T) {
	s := Similarity{A: 1.1 * math.Cos(0.2), B: 1.1 * math.Sin(0.2), TX: 7, TY: -3}
	i := s.Then(s.Inverse())
	near(t, "A", i.A, 1, 1e-12)
	near(t, "B", i.B, 0, 1e-12)
	near(t, "TX", i.TX, 0, 1e-12)
	near(t, "TY", i.TY, 0, 1e-12)
	near(t, "zoom", s.Step().Zoom, 1.1, 1e-12)
	near(t, "roll", s.Step().Roll, 0.2*180/math.Pi, 1e-9)
}

func TestThenAppliesInOrder(t *testing.T) {
	turn, shift := Similarity{B: 1}, Similarity{A: 1, TX: 10}
	x, y := turn.Then(shift).Apply(1, 0) // (1,0) turns to (0,1), then moves to (10,1)
	near(t, "x", x, 10, 1e-12)
	near(t, "y", y, 1, 1e-12)
}

// OpenCV's acceptance test of its own estimator: 100 points, 60 % of them
// outliers, matrix error at most 1e-4.
func TestConsensusUnderOutliers(t *testing.T) {
	want := Similarity{A: 1.02 * math.Cos(0.05), B: 1.02 * math.Sin(0.05), TX: 4.5, TY: -2.25}
	draw := rand.New(rand.NewPCG(7, 7))
	var points []point
	for i := range 100 {
		p := point{x: draw.Float64()*600 - 300, y: draw.Float64()*320 - 160}
		a := draw.Float64() * 2 * math.Pi
		p.nx, p.ny = math.Cos(a), math.Sin(a)
		qx, qy := want.Apply(p.x, p.y)
		p.u, p.v = qx-p.x, qy-p.y
		if i < 60 {
			p.u, p.v = draw.Float64()*80-40, draw.Float64()*80-40
		}
		points = append(points, p)
	}
	got := consensus(points, Identity)
	for i, d := range []float64{got.A - want.A, got.B - want.B, got.TX - want.TX, got.TY - want.TY} {
		near(t, []string{"A", "B", "TX", "TY"}[i], d, 0, 1e-4)
	}
}

// change makes a step that changes amount, over all of the picture where hard.
func change(amount float64, scene int) Change {
	c := Change{Amount: amount}
	if amount >= hardChange {
		c.Hard, c.Seen, c.Spread = 0.8, 0.9, 0.9
	}
	for i := range c.Thumb {
		c.Thumb[i] = float32((scene*97 + i*i*scene) % 200)
	}
	return c
}

func TestCutter(t *testing.T) {
	steady := func(n, scene int) []Change {
		var out []Change
		for range n {
			out = append(out, change(1, scene))
		}
		return out
	}
	cutTo := func(n, scene int) []Change { return append([]Change{change(40, scene)}, steady(n-1, scene)...) }
	var whip []Change
	for i := range 6 {
		whip = append(whip, change(40, 10+i))
	}
	for _, c := range []struct {
		name   string
		stream []Change
		want   []int
	}{
		{"calm", steady(40, 1), nil},
		{"one cut", slices.Concat(steady(20, 1), cutTo(20, 2)), []int{20}},
		{"cut on the second frame", slices.Concat(steady(1, 1), cutTo(20, 2)), []int{1}},
		{"cut on the last frame", slices.Concat(steady(20, 1), cutTo(1, 2)), []int{20}},
		{"shots of twelve frames", slices.Concat(steady(12, 1), cutTo(12, 2), cutTo(12, 3)), []int{12, 24}},
		{"flash of three frames", slices.Concat(steady(20, 1), cutTo(3, 2), cutTo(20, 1)), nil},
		{"whip", slices.Concat(steady(20, 1), whip, steady(20, 30)), nil},
	} {
		cutter := NewCutter(24)
		var got []int
		for _, ch := range c.stream {
			if f, ok := cutter.Push(ch); ok {
				got = append(got, f)
			}
		}
		got = append(got, cutter.Flush()...)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: cuts at %v, want %v", c.name, got, c.want)
		}
	}
}

func TestSummarise(t *testing.T) {
	steps := func(n int, s func(i int) Similarity) []Similarity {
		out := []Similarity{Identity}
		for i := range n {
			out = append(out, s(i))
		}
		return out
	}
	shift := func(x, y float64) func(int) Similarity {
		return func(int) Similarity { return Similarity{A: 1, TX: x, TY: y} }
	}
	for _, c := range []struct {
		want  string
		steps []Similarity
	}{
		{Still, steps(48, shift(0, 0))},
		{Pan, steps(48, shift(-2, 0))},
		{Tilt, steps(48, shift(0, 2))},
		{Push, steps(48, func(int) Similarity { return Similarity{A: 1.005} })},
		{Pull, steps(48, func(int) Similarity { return Similarity{A: 0.995} })},
		{Mixed, steps(48, func(int) Similarity { return Similarity{A: 1.005, TX: -2} })},
		{Handheld, steps(48, func(i int) Similarity {
			return Similarity{A: 1, TX: 4 * math.Cos(float64(i)), TY: 3 * math.Sin(1.7*float64(i))}
		})},
	} {
		if got := Summarise(c.steps, 640, 360, 24); got.Kind != c.want {
			t.Errorf("%s: called %s (%+v)", c.want, got.Kind, got)
		}
	}
	// The camera turned right: the picture moved left.
	near(t, "travel", Summarise(steps(48, shift(-2, 0)), 640, 360, 24).TravelX, 96, 1e-9)
}
