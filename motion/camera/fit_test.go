package camera

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

const viewW, viewH = 320, 180

// A world is a picture as a formula, in levels, from the middle of the view.
type world func(x, y float64) float64

// ripples is a world of sines of many directions, each at least 11 pixels long,
// so that what lies between pixels is known and the blur changes it little.
func ripples(x, y float64) float64 {
	v := 0.0
	for k := range 7 {
		a := 0.3 + 1.9*float64(k)
		v += math.Sin(2*math.Pi*(x*math.Cos(a)+y*math.Sin(a))/(11+6*float64(k)) + float64(k))
	}
	return 126 + 12*v
}

func blank(x, y float64) float64 { return 126 }

// seen is the world after the camera moved by s and the light changed.
func (w world) seen(s Similarity, gain, bias float64) world {
	back := s.Inverse()
	return func(x, y float64) float64 {
		x, y = back.Apply(x, y)
		return gain*w(x, y) + bias
	}
}

// with lays an upright rectangle of another world over w.
func (w world) with(x0, y0, x1, y1 float64, inner world) world {
	return func(x, y float64) float64 {
		if x >= x0 && x < x1 && y >= y0 && y < y1 {
			return inner(x-x0, y-y0)
		}
		return w(x, y)
	}
}

// view renders a world; grain is the deviation of normal noise, levels.
func view(t *testing.T, w world, grain float64, seed uint64) *picture.Picture {
	t.Helper()
	p, err := picture.New(viewW, viewH)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	draw := rand.New(rand.NewPCG(seed, 77))
	f := image.NewYCbCr(image.Rect(0, 0, viewW, viewH), image.YCbCrSubsampleRatio420)
	for y := range viewH {
		for x := range viewW {
			v := w(float64(x)-float64(viewW-1)/2, float64(y)-float64(viewH-1)/2) + grain*draw.NormFloat64()
			f.Y[y*f.YStride+x] = uint8(math.Round(min(255, max(0, v))))
		}
	}
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = 128, 128
	}
	if err := p.Set(f); err != nil {
		t.Fatal(err)
	}
	return p
}

// fit is the whole way from two pictures to the camera's motion.
func fit(t *testing.T, from, to *picture.Picture) Fit {
	t.Helper()
	d, err := flow.NewDIS(flow.Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	var f flow.Field
	if err := d.Calc(&f, from.Gray(), to.Gray()); err != nil {
		t.Fatal(err)
	}
	return NewEstimator(viewW, viewH).Fit(from, to, &f)
}

// apart is how far two motions send a corner of the view apart, pixels.
func apart(a, b Similarity) float64 { return a.Inverse().Then(b).Reach(viewW, viewH) }

// TestFitOfAKnownMotion moves a formula by a known similarity under a known
// change of light: shifts by fractions of a pixel, turns, changes of scale.
func TestFitOfAKnownMotion(t *testing.T) {
	turn := func(z, degrees, tx, ty float64) Similarity {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return Similarity{A: z * cos, B: z * sin, TX: tx, TY: ty}
	}
	for _, c := range []struct {
		name       string
		s          Similarity
		gain, bias float64
		grain      float64
		limit      float64 // pixels at the corner
	}{
		{"a quarter of a pixel", turn(1, 0, 0.25, -0.4), 1, 0, 0, 0.04},
		{"pan", turn(1, 0, -7.3, 0), 1, 0, 0, 0.04},
		{"tilt", turn(1, 0, 0.2, 5.6), 1, 0, 0, 0.04},
		{"push", turn(1.02, 0, 0, 0), 1, 0, 0, 0.04},
		{"pull and roll", turn(0.985, 0.8, 2.5, -1.5), 1, 0, 0, 0.04},
		{"lighter", turn(1.004, -0.3, 1.7, 0.9), 1.08, 0, 0, 0.05},
		{"darker and duller", turn(1.004, -0.3, 1.7, 0.9), 0.85, 6, 0, 0.05},
		{"grain of 4 levels", turn(1.004, -0.3, 1.7, 0.9), 1, 0, 4, 0.1},
	} {
		from := view(t, ripples, c.grain, 1)
		to := view(t, world(ripples).seen(c.s, c.gain, c.bias), c.grain, 2)
		got := fit(t, from, to)
		if d := apart(got.Motion, c.s); !(d <= c.limit) {
			t.Errorf("%s: motion %+v, want %+v: %.3f px apart at the corner", c.name, got.Motion, c.s, d)
		}
		// The level at the middle of the range tells gain and bias together.
		near(t, c.name+": light", got.Gain*126+got.Bias, c.gain*126+c.bias, 0.8)
		near(t, c.name+": gain", got.Gain, c.gain, 0.03)
		if !got.Founded() {
			t.Errorf("%s: %d of %d cells follow: not founded", c.name, got.Inliers, got.Cells)
		}
	}
}

// TestRefineFromBeside starts the alignment beside the truth, so that what is
// right afterwards is its own doing.
func TestRefineFromBeside(t *testing.T) {
	want := Similarity{A: 1.003, B: 0.004, TX: 1.2, TY: -0.7}
	from, to := view(t, ripples, 0, 1), view(t, world(ripples).seen(want, 0.95, 4), 0, 2)
	r := refiner{g: newGrid(viewW, viewH)}
	cells := make([]int, r.g.cols*r.g.rows)
	for i := range cells {
		cells[i] = i
	}
	start := Similarity{A: 1, TX: 0.5, TY: 0.3}
	p, residual := r.refine(from, to, start, cells, minGradient)
	if d := apart(p.s, want); !(d <= 0.03) {
		t.Errorf("refined to %+v, want %+v: %.3f px apart at the corner", p.s, want, d)
	}
	near(t, "gain", p.gain, 0.95, 0.01)
	near(t, "bias", p.bias, 4, 1.5)
	// Whole levels leave a residual of a third, and no less than leastScale is told.
	near(t, "residual", residual, leastScale, 0.3)
}

// The camera stands, to the last bit, however large the figure that moves; only
// one that is a third of the picture and creeps along takes it with it by less
// than a tenth of a pixel.
func TestCameraStandsBehindALargeFigure(t *testing.T) {
	figure := func(x, y float64) float64 { return ripples(1.3*y+40, 1.3*x-25) }
	for _, c := range []struct {
		name           string
		ground         world
		x0, y0, x1, y1 float64
		dx, dy         float64
		grain          float64
		limit          float64 // pixels at the corner
	}{
		{"a quarter of the picture", ripples, -40, -45, 60, 90, 3, 0, 0, 0},
		{"close to half of it, in grain", ripples, -80, -75, 70, 90, 2.4, -1.2, 3, 0},
		{"slowly", ripples, -70, -70, 60, 90, 0.3, 0, 0, 0.1},
		{"before a plain ground", blank, -20, -60, 30, 60, 2, 0.5, 0, 0},
		{"before a plain ground, in grain", blank, -20, -60, 30, 60, 2, 0.5, 3, 0},
	} {
		from := view(t, c.ground.with(c.x0, c.y0, c.x1, c.y1, figure), c.grain, 1)
		moved := func(x, y float64) float64 { return figure(x-c.dx+math.Round(c.dx), y-c.dy+math.Round(c.dy)) }
		to := view(t, c.ground.with(c.x0+math.Round(c.dx), c.y0+math.Round(c.dy), c.x1+math.Round(c.dx), c.y1+math.Round(c.dy), moved), c.grain, 2)
		if got := fit(t, from, to); !(apart(got.Motion, Identity) <= c.limit) {
			t.Errorf("%s: the camera moved: %+v", c.name, got.Motion)
		}
	}
}

// A camera that was seen to stand goes on doing so when all there is to follow, a
// figure close before a plain ground, creeps along.
func TestCameraStandsOnBehindACloseFigure(t *testing.T) {
	figure := func(x, y float64) float64 { return ripples(1.3*y+40, 1.3*x-25) }
	at := func(x float64, seed uint64) *picture.Picture {
		moved := func(px, py float64) float64 { return figure(px-x, py) }
		return view(t, world(blank).with(-70, -80, 70, 90, moved), 1, seed)
	}
	d, err := flow.NewDIS(flow.Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	e := NewEstimator(viewW, viewH)
	var f flow.Field
	before := at(0, 0)
	for n := 1; n <= 12; n++ {
		x := 0.3 * math.Max(0, float64(n-9))
		now := at(x, uint64(n))
		if err := d.Calc(&f, before.Gray(), now.Gray()); err != nil {
			t.Fatal(err)
		}
		if got := e.Fit(before, now, &f); got.Motion != Identity {
			t.Errorf("step %d: the camera moved: %+v", n, got.Motion)
		}
		before = now
	}
}

// A camera that has been seen to stand on more than half of the last
// steps is one that stands; a cut ends what is known of it.
func TestHabit(t *testing.T) {
	var h habit
	cells := Fit{Points: 100, Inliers: 90, Cells: 100}
	stands, moves, cut := cells, cells, cells
	stands.Motion, moves.Motion, cut.Motion = Identity, Similarity{A: 1, TX: 2}, Identity
	cut.Inliers = 12
	for i, c := range []struct {
		step  Fit
		times int
		want  bool
	}{
		{moves, 3, false}, {stands, standSteps / 2, false}, {stands, 1, true},
		{moves, standSteps / 2, false}, {stands, standSteps, true}, {cut, 1, false},
	} {
		for range c.times {
			h.note(c.step)
		}
		if got := h.stands(); got != c.want {
			t.Errorf("%d: stands %t, want %t", i, got, c.want)
		}
	}
}

// A camera that moves is told behind a figure that moves otherwise.
func TestCameraMovesBehindAFigure(t *testing.T) {
	figure := func(x, y float64) float64 { return ripples(1.3*y+40, 1.3*x-25) }
	want := Similarity{A: 1.002, TX: -2.6, TY: 0.8}
	ground := world(ripples)
	from := view(t, ground.with(-50, -60, 40, 90, figure), 1, 1)
	to := view(t, ground.seen(want, 1, 0).with(-44, -60, 46, 90, figure), 1, 2)
	if got := fit(t, from, to); !(apart(got.Motion, want) <= 0.1) {
		t.Errorf("motion %+v, want %+v: %.3f px apart at the corner", got.Motion, want, apart(got.Motion, want))
	}
}

// Nothing to see: the camera stands, nothing is founded, no number is lost.
func TestFitOfNothing(t *testing.T) {
	for name, w := range map[string]world{
		"black": func(x, y float64) float64 { return 0 }, "grey": blank,
		"a soft ramp": func(x, y float64) float64 { return 126 + x/20 },
	} {
		got := fit(t, view(t, w, 0, 1), view(t, w, 0, 1))
		if got.Motion != Identity || got.Founded() || math.IsNaN(got.Gain) || math.IsNaN(got.Bias) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// An Estimator remembers the last motion as a guess; two that saw different
// pairs before agree on a pair that is plain to see.
func TestFitDoesNotHangOnThePast(t *testing.T) {
	want := Similarity{A: 1, TX: 3.5, TY: -1}
	from, to := view(t, ripples, 0, 1), view(t, world(ripples).seen(want, 1, 0), 0, 1)
	back := view(t, world(ripples).seen(Similarity{A: 1, TX: -6}, 1, 0), 0, 1)
	d, err := flow.NewDIS(flow.Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	e := NewEstimator(viewW, viewH)
	var f flow.Field
	for _, later := range []*picture.Picture{back, to} {
		if err := d.Calc(&f, from.Gray(), later.Gray()); err != nil {
			t.Fatal(err)
		}
		if later == to {
			if got := e.Fit(from, to, &f).Motion; !(apart(got, want) <= 0.04) {
				t.Errorf("after another motion: %+v, want %+v", got, want)
			}
			continue
		}
		e.Fit(from, later, &f)
	}
}
