package flow

import (
	"image"
	"math"
	"slices"
	"testing"
)

// waves is a picture given as a formula: sines of many directions and lengths,
// so that its value between pixels is known and not interpolated. Levels stay
// within 128 ± 110.
func waves(x, y float64) float64 {
	v := 0.0
	for k := range 8 {
		a := 0.7 + 2.4*float64(k)
		length := 9 + 5*float64(k) // pixels
		v += math.Sin(2*math.Pi*(x*math.Cos(a)+y*math.Sin(a))/length + 1.3*float64(k))
	}
	return 128 + 110*v/8
}

// paint evaluates a formula at every pixel.
func paint(w, h int, f func(x, y float64) float64) *image.Gray {
	g := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			g.Pix[y*g.Stride+x] = uint8(math.Round(f(float64(x), float64(y))))
		}
	}
	return g
}

func newDIS(t *testing.T, p Preset) *DIS {
	t.Helper()
	d, err := NewDIS(p)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	return d
}

// swirl is a smooth displacement of up to 7 pixels, given as a formula.
func swirl(x, y float64) (u, v float64) {
	return 4 + 3*math.Sin(y/40), -2 + 2.5*math.Cos(x/50)
}

// TestWarpedPair holds flow against a pair whose displacement is a formula: the
// earlier picture shows at p what the later one shows at p + swirl(p). The end
// point error allowed is that measured once on a pair of like motion, plus a
// quarter: 0.25 px for the fast preset, 0.05 px for the medium one.
func TestWarpedPair(t *testing.T) {
	const w, h, rim = 320, 180, 12 // what leaves the picture cannot be followed
	from := paint(w, h, func(x, y float64) float64 {
		u, v := swirl(x, y)
		return waves(x+u, y+v)
	})
	to := paint(w, h, waves)
	for _, c := range []struct {
		name   string
		preset Preset
		limit  float64 // mean end point error, pixels
	}{{"fast", Fast, 0.31}, {"medium", Medium, 0.07}} {
		var f Field
		if err := newDIS(t, c.preset).Calc(&f, from, to); err != nil {
			t.Fatal(err)
		}
		sum, n := 0.0, 0
		for y := rim; y < h-rim; y++ {
			for x := rim; x < w-rim; x++ {
				u, v := f.At(x, y)
				wantU, wantV := swirl(float64(x), float64(y))
				sum += math.Hypot(float64(u)-wantU, float64(v)-wantV)
				n++
			}
		}
		if mean := sum / float64(n); !(mean <= c.limit) {
			t.Errorf("%s: mean end point error %.3f px, want at most %g", c.name, mean, c.limit)
		}
	}
}

// Dense inverse search takes a flow field of the right size as the place to
// start from; what the last call left in dst must not be taken so.
func TestSamePairTwiceGivesSameBits(t *testing.T) {
	a, b := paint(96, 64, waves), paint(96, 64, func(x, y float64) float64 { return waves(x-2.5, y+1.25) })
	d := newDIS(t, Fast)
	var f Field
	if err := d.Calc(&f, a, b); err != nil {
		t.Fatal(err)
	}
	first := slices.Clone(f.UV)
	if err := d.Calc(&f, a, b); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(f.UV, first) {
		t.Error("the same pair into the same field gives other bits the second time")
	}
}

func TestThreadsDoNotChangeBits(t *testing.T) {
	defer SetThreads(-1) // OpenCV's own choice again
	a, b := paint(200, 120, waves), paint(200, 120, func(x, y float64) float64 { return waves(x+3.2, y-0.7) })
	var fields [2][]float32
	for i := range fields {
		SetThreads(i + 1)
		fields[i] = calc(t, newDIS(t, Medium), a, b)
	}
	if !slices.Equal(fields[0], fields[1]) {
		t.Error("flow by one and by two threads differs")
	}
}

// A part of a larger picture has rows farther apart than its width: its flow is
// that of a copy, or it is refused, but never read askew.
func TestStridedPictures(t *testing.T) {
	part := image.Rect(10, 6, 90, 70)
	big := func(g *image.Gray) *image.Gray { return g.SubImage(part).(*image.Gray) }
	tight := func(g *image.Gray) *image.Gray {
		out := image.NewGray(image.Rectangle{Max: part.Size()})
		for y := range part.Dy() {
			copy(out.Pix[y*out.Stride:], g.Pix[y*g.Stride:y*g.Stride+part.Dx()])
		}
		return out
	}
	a, b := big(paint(120, 100, waves)), big(paint(120, 100, func(x, y float64) float64 { return waves(x-1.5, y+2) }))
	d := newDIS(t, Fast)
	var f Field
	if err := d.Calc(&f, a, b); err == nil && !slices.Equal(f.UV, calc(t, d, tight(a), tight(b))) {
		t.Error("flow of a part of a picture differs from that of its copy")
	}
}

func TestSmallestSides(t *testing.T) {
	d := newDIS(t, Fast)
	for _, c := range []struct {
		w, h int
		ok   bool
	}{
		{MinSide, MinSide, true}, {MinSide + 1, MinSide + 3, true}, {300, MinSide, true}, {MinSide, 300, true},
		{MinSide - 1, MinSide, false}, {MinSide, MinSide - 1, false}, {1, 1, false}, {0, 0, false}, {300, 12, false},
	} {
		var f Field
		err := d.Calc(&f, paint(c.w, c.h, waves), paint(c.w, c.h, waves))
		if (err == nil) != c.ok {
			t.Errorf("%d by %d: error %v, want none: %t", c.w, c.h, err, c.ok)
		}
		if c.ok && (f.W != c.w || f.H != c.h || len(f.UV) != 2*c.w*c.h) {
			t.Errorf("%d by %d: field of %d by %d with %d values", c.w, c.h, f.W, f.H, len(f.UV))
		}
	}
}

// Nothing to see and nothing moved: no displacement, and above all numbers.
func TestPicturesThatStand(t *testing.T) {
	d := newDIS(t, Fast)
	for name, g := range map[string]*image.Gray{
		"black": image.NewGray(image.Rect(0, 0, 64, 48)),
		"waves": paint(64, 48, waves),
	} {
		for i, v := range calc(t, d, g, g) {
			if !(math.Abs(float64(v)) < 0.01) {
				t.Errorf("%s: value %d of a picture against itself is %v", name, i, v)
				break
			}
		}
	}
}

// A field shrinks and grows with the pictures, and keeps its memory.
func TestFieldFollowsSize(t *testing.T) {
	var f Field
	f.Reset(40, 30)
	at := &f.UV[0]
	f.Reset(20, 10)
	if f.W != 20 || f.H != 10 || len(f.UV) != 400 || &f.UV[0] != at {
		t.Errorf("after shrinking: %d by %d, %d values, same memory %t", f.W, f.H, len(f.UV), &f.UV[0] == at)
	}
	f.UV[2*(3*20+7)], f.UV[2*(3*20+7)+1] = 5, -6
	if u, v := f.At(7, 3); u != 5 || v != -6 {
		t.Errorf("pixel (7, 3) holds %v, %v; want 5, -6", u, v)
	}
}

func TestClosingTwice(t *testing.T) {
	d, err := NewDIS(Ultrafast)
	if err != nil {
		t.Fatal(err)
	}
	d.Close()
	d.Close()
	var f Field
	if d.Calc(&f, paint(64, 48, waves), paint(64, 48, waves)) == nil {
		t.Error("a closed DIS calculates")
	}
}
