package travel

import (
	"image"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

const viewW, viewH = 192, 128

// A world is a picture as a formula, in levels, in pixels from the top left.
type world func(x, y float64) float64

// ripples are sines of many directions, each at least 9 pixels long.
func ripples(x, y float64) float64 {
	v := 0.0
	for k := range 7 {
		a := 0.5 + 1.9*float64(k)
		v += math.Sin(2*math.Pi*(x*math.Cos(a)+y*math.Sin(a))/(9+5*float64(k)) + float64(k))
	}
	return 126 + 13*v
}

// other is a texture unlike ripples, finer and of more contrast.
func other(x, y float64) float64 { return 126 + 1.35*(ripples(1.5*y+300, 1.4*x-500)-126) }

// blots are soft dots with strong outlines.
func blots(x, y float64) float64 {
	return 126 + 95*math.Tanh(3*math.Sin(2*math.Pi*x/16)*math.Sin(2*math.Pi*y/16))
}

// cover is how much of a pixel at x lies between two edges, as a lens of one
// pixel's width sees it.
func cover(x, from, to float64) float64 {
	return math.Max(0, math.Min(1, math.Min(x-from, to-x)+0.5))
}

// with lays an upright rectangle of another world over w; edges lie between
// pixels as given.
func (w world) with(x0, y0, x1, y1 float64, inner world) world {
	return func(x, y float64) float64 {
		c := cover(x, x0, x1) * cover(y, y0, y1)
		return c*inner(x, y) + (1-c)*w(x, y)
	}
}

// moved is the world after everything in it went by (dx, dy).
func (w world) moved(dx, dy float64) world {
	return func(x, y float64) float64 { return w(x-dx, y-dy) }
}

func view(t *testing.T, w world, grain float64, seed uint64) *picture.Picture {
	t.Helper()
	p, err := picture.New(viewW, viewH)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	draw := rand.New(rand.NewPCG(seed, 9))
	f := image.NewYCbCr(image.Rect(0, 0, viewW, viewH), image.YCbCrSubsampleRatio420)
	for y := range viewH {
		for x := range viewW {
			v := w(float64(x), float64(y)) + grain*draw.NormFloat64()
			f.Y[y*f.YStride+x] = uint8(math.Round(min(255, max(0, v))))
		}
	}
	if err := p.Set(f); err != nil {
		t.Fatal(err)
	}
	return p
}

var still = camera.Fit{Motion: camera.Identity, Gain: 1}

// travels measures the way between two pictures.
func travels(t *testing.T, from, to *picture.Picture, fit camera.Fit) *Map {
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
	m := new(Map)
	NewMeter(viewW, viewH).Measure(m, from, to, &f, fit)
	return m
}

// inside returns the supported travel of the cells whose window lies within a
// rectangle, sorted.
func inside(m *Map, x0, y0, x1, y1 int) (v []float64) {
	for i := range m.Travel {
		x, y := m.Bounds(i)
		if x-windowMargin >= x0 && y-windowMargin >= y0 && x+CellSide+windowMargin <= x1 && y+CellSide+windowMargin <= y1 {
			v = append(v, m.Supported(i))
		}
	}
	slices.Sort(v)
	return v
}

// heads is the angle, radians, between a way and the sum of those of the cells whose
// middle lies within a rectangle.
func heads(m *Map, x0, y0, x1, y1 int, dx, dy float64) float64 {
	var sx, sy float64
	for i := range m.Travel {
		if x, y := m.Bounds(i); x >= x0 && y >= y0 && x+CellSide <= x1 && y+CellSide <= y1 {
			vx, vy := m.Vector(i)
			sx, sy = sx+vx, sy+vy
		}
	}
	return math.Acos(min(1, (sx*dx+sy*dy)/(math.Hypot(sx, sy)*math.Hypot(dx, dy))))
}

// farthestOutside is the largest supported travel of the cells that keep clear
// of a rectangle by a cell.
func farthestOutside(m *Map, x0, y0, x1, y1 int) (most float64) {
	for i := range m.Travel {
		x, y := m.Bounds(i)
		if x+2*CellSide <= x0 || y+2*CellSide <= y0 || x-CellSide >= x1 || y-CellSide >= y1 {
			most = max(most, m.Supported(i))
		}
	}
	return most
}

// TestPatchTravels moves a textured patch over a textured ground by a known
// way. A travel is told less its own doubt, so it may lie under the truth by
// more than over it.
func TestPatchTravels(t *testing.T) {
	const x0, y0, x1, y1 = 60, 40, 124, 88
	for _, c := range []struct {
		patch        world
		dx, dy       float64
		grain        float64
		under, above float64 // of the median, pixels
		least        float64 // share of the way that nine cells of ten show; grain hides slow ones
	}{
		{blots, 0.1, 0, 0, 0.03, 0.02, 0},
		{blots, 0, 0.7, 0, 0.06, 0.05, 0.5},
		{other, 0, 0.3, 0, 0.04, 0.03, 0.5},
		{other, 0.5, -0.5, 0, 0.06, 0.05, 0.5},
		{other, -0.7, 0, 0, 0.06, 0.05, 0.5},
		{other, 2.5, 0, 0, 0.12, 0.1, 0.5},
		{other, -1.5, 2, 0, 0.12, 0.1, 0.5},
		{other, 0.7, 0, 2, 0.25, 0.15, 0},
		{other, 2.5, 0, 2, 0.25, 0.15, 0.5},
	} {
		way := math.Hypot(c.dx, c.dy)
		from := view(t, world(ripples).with(x0, y0, x1, y1, c.patch), c.grain, 1)
		to := view(t, world(ripples).with(x0+c.dx, y0+c.dy, x1+c.dx, y1+c.dy, c.patch.moved(c.dx, c.dy)), c.grain, 2)
		m := travels(t, from, to, still)
		got := inside(m, x0+3, y0+3, x1-3, y1-3)
		if median := got[len(got)/2]; !(median >= way-c.under && median <= way+c.above) {
			t.Errorf("patch went by (%g, %g) in grain %g: median travel %.3f, want %.3f", c.dx, c.dy, c.grain, median, way)
		}
		if low, high := got[len(got)/10], got[len(got)-1]; !(low >= c.least*way && high <= 1.25*way+0.05) {
			t.Errorf("patch went by (%g, %g) in grain %g: travels from %.3f to %.3f, want %.3f", c.dx, c.dy, c.grain, low, high, way)
		}
		if off := heads(m, x0, y0, x1, y1, c.dx, c.dy); off > 0.1 {
			t.Errorf("patch went by (%g, %g) in grain %g: its travels head %.2f radians beside that", c.dx, c.dy, c.grain, off)
		}
		if far := farthestOutside(m, x0, y0, x1, y1); far != 0 {
			t.Errorf("patch went by (%g, %g) in grain %g: ground travels %.3f", c.dx, c.dy, c.grain, far)
		}
	}
}

// TestStraightEdges: along an edge without texture nothing can be told, and
// nothing must be made up; across it the whole way shows.
func TestStraightEdges(t *testing.T) {
	plain := world(func(x, y float64) float64 { return 70 })
	light := func(x, y float64) float64 { return 190 }
	bar := func(x float64) world { return plain.with(x, -50, x+30, viewH+50, light) }
	for _, c := range []struct {
		name  string
		way   float64 // across the bar
		grain float64
		limit float64 // of what may be told besides, pixels
	}{
		{"standing", 0, 0, 0},
		{"standing, in grain", 0, 3, 0},
		{"standing, in strong grain", 0, 8, 0},
		{"by a third of a pixel", 0.3, 0, 0.05},
		{"by a pixel", 1, 0, 0.1},
		{"by four pixels", 4, 0, 0.3},
	} {
		m := travels(t, view(t, bar(80), c.grain, 3), view(t, bar(80+c.way), c.grain, 4), still)
		most := 0.0
		for i := range m.Travel {
			most = max(most, m.Supported(i))
		}
		if !(most <= c.way+c.limit) {
			t.Errorf("%s: a travel of %.3f px, want at most %g", c.name, most, c.way+c.limit)
		}
		if !(most >= 0.6*c.way) {
			t.Errorf("%s: no travel over %.3f px, want about %g", c.name, most, c.way)
		}
	}
}

// What changes without going anywhere: grain, and light of all kinds.
func TestNothingTravels(t *testing.T) {
	dim := func(x, y float64) float64 { return 0.9*ripples(x, y) + 6 }
	grey := func(x, y float64) float64 { return 100 }
	// pool is a soft pool of light over a world, a quarter brighter in its middle.
	pool := func(w world, deviation float64) world {
		return func(x, y float64) float64 {
			return w(x, y) * (1 + 0.25*math.Exp(-((x-96)*(x-96)+(y-64)*(y-64))/(2*deviation*deviation)))
		}
	}
	for _, c := range []struct {
		name     string
		from, to world
		grain    float64
		fit      camera.Fit
	}{
		{"the same picture", ripples, ripples, 0, still},
		{"grain of 2 levels", ripples, ripples, 2, still},
		{"grain of 8 levels", ripples, ripples, 8, still},
		{"grain on black", func(x, y float64) float64 { return 4 }, func(x, y float64) float64 { return 4 }, 4, still},
		{"dimmer all over", ripples, dim, 0, camera.Fit{Motion: camera.Identity, Gain: 0.9, Bias: 6}},
		{"dimmer all over, in grain", ripples, dim, 3, camera.Fit{Motion: camera.Identity, Gain: 0.9, Bias: 6}},
		{"a wide pool of light comes on", ripples, pool(ripples, 60), 0, still},
		{"a pool of light on plain ground", grey, pool(grey, 30), 0, still},
	} {
		m := travels(t, view(t, c.from, c.grain, 5), view(t, c.to, c.grain, 6), c.fit)
		cells, most := 0, 0.0
		for i := range m.Travel {
			if v := m.Supported(i); v > 0 {
				cells, most = cells+1, max(most, v)
			}
		}
		if cells > 0 {
			t.Errorf("%s: %d cells travel, up to %.3f px", c.name, cells, most)
		}
	}
}

// The camera's own motion is nobody's travel; what moves against it is.
func TestCameraIsTakenOut(t *testing.T) {
	const x0, y0, x1, y1 = 60, 40, 124, 88
	pan := camera.Fit{Motion: camera.Similarity{A: 1, TX: -1.4, TY: 0.6}, Gain: 1}
	ground := world(ripples)
	from := view(t, ground.with(x0, y0, x1, y1, other), 1, 1)
	to := view(t, ground.moved(-1.4, 0.6).with(x0-0.4, y0+0.6, x1-0.4, y1+0.6, world(other).moved(-0.4, 0.6)), 1, 2)
	m := travels(t, from, to, pan)
	got := inside(m, x0+3, y0+3, x1-3, y1-3)
	if median := got[len(got)/2]; math.Abs(median-1) > 0.15 {
		t.Errorf("patch that goes 1 px against the world: median travel %.3f", median)
	}
	if far := farthestOutside(m, x0, y0, x1, y1); far > 0 {
		t.Errorf("ground under a pan travels %.3f px", far)
	}
}

// A light that changes all over hides nothing that travels.
func TestPatchTravelsUnderChangingLight(t *testing.T) {
	const x0, y0, x1, y1 = 60, 40, 124, 88
	fit := camera.Fit{Motion: camera.Identity, Gain: 0.85, Bias: 4}
	later := world(ripples).with(x0+0.8, y0, x1+0.8, y1, world(other).moved(0.8, 0))
	from := view(t, world(ripples).with(x0, y0, x1, y1, other), 0, 1)
	to := view(t, func(x, y float64) float64 { return fit.Gain*later(x, y) + fit.Bias }, 0, 2)
	m := travels(t, from, to, fit)
	got := inside(m, x0+3, y0+3, x1-3, y1-3)
	if median := got[len(got)/2]; math.Abs(median-0.8) > 0.07 {
		t.Errorf("patch that goes 0.8 px while the light falls: median travel %.3f", median)
	}
	if far := farthestOutside(m, x0, y0, x1, y1); far > 0 {
		t.Errorf("ground travels %.3f px while the light falls", far)
	}
}

// A repeated picture is the same to the last bit, and only that one.
func TestSame(t *testing.T) {
	from, to := view(t, ripples, 0, 1), view(t, ripples, 0, 1)
	if m := travels(t, from, to, still); !m.Same || m.Noise != 0 {
		t.Errorf("repeated picture: same %t, noise %g", m.Same, m.Noise)
	}
	to.Y[5000]++
	if m := travels(t, from, to, still); m.Same {
		t.Error("a picture with one pixel changed is called the same")
	}
}

// Every pixel of a cell leads back to it, and the border to none.
func TestCellsAndBounds(t *testing.T) {
	m := travels(t, view(t, ripples, 0, 1), view(t, ripples, 0, 1), still)
	if m.Cols != (viewW-2*border)/CellSide || m.Rows != (viewH-2*border)/CellSide || len(m.Travel) != m.Cols*m.Rows {
		t.Fatalf("%d by %d cells, %d values", m.Cols, m.Rows, len(m.Travel))
	}
	seen := make([]int, m.Cols*m.Rows)
	for y := -3; y < viewH+3; y++ {
		for x := -3; x < viewW+3; x++ {
			i, ok := m.Cell(x, y)
			if !ok {
				continue
			}
			x0, y0 := m.Bounds(i)
			if x < x0 || y < y0 || x >= x0+CellSide || y >= y0+CellSide || x >= viewW-border || y >= viewH-border {
				t.Fatalf("pixel (%d, %d) is said to be in the cell at (%d, %d)", x, y, x0, y0)
			}
			seen[i]++
		}
	}
	for i, n := range seen {
		if n != CellSide*CellSide {
			t.Fatalf("cell %d holds %d pixels, want %d", i, n, CellSide*CellSide)
		}
	}
}

// Supported is the cell's own travel as far as a neighbour bears it out.
func TestSupported(t *testing.T) {
	m := &Map{Cols: 4, Rows: 3, Travel: make([]float32, 12)}
	m.Travel[5], m.Travel[10], m.Travel[3] = 3, 1.5, 8 // 10 is diagonal to 5; 3 touches 10 by no corner
	for i, want := range map[int]float64{0: 0, 5: 1.5 / supportShare, 10: 1.5, 3: 0} {
		if got := m.Supported(i); math.Abs(got-want) > 1e-6 {
			t.Errorf("cell %d: %g, want %g", i, got, want)
		}
	}
}

// Pictures without room for a cell have maps without cells.
func TestTooSmallForCells(t *testing.T) {
	for _, size := range [][2]int{{2, 2}, {15, 15}, {100, 9}} {
		p, err := picture.New(size[0], size[1])
		if err != nil {
			t.Fatal(err)
		}
		m := new(Map)
		NewMeter(size[0], size[1]).Measure(m, p, p, nil, still)
		if len(m.Travel) != 0 || m.Cols*m.Rows != 0 {
			t.Errorf("%v: %d by %d cells", size, m.Cols, m.Rows)
		}
		p.Close()
	}
}
