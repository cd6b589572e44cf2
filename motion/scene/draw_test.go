package scene

import (
	"bytes"
	"image"
	"math"
	"math/rand"
	"sync"
	"testing"
)

func drawn(t testing.TB, sc *Scene, frame int) *image.YCbCr {
	t.Helper()
	dst := sc.NewFrame()
	if err := sc.Draw(dst, frame); err != nil {
		t.Fatal(err)
	}
	return dst
}

func sameBytes(a, b *image.YCbCr) bool {
	return bytes.Equal(a.Y, b.Y) && bytes.Equal(a.Cb, b.Cb) && bytes.Equal(a.Cr, b.Cr)
}

// Any order, any goroutine, a second scene: the same bytes.
func TestDrawingIsTheSameInAnyOrder(t *testing.T) {
	for _, v := range []Variant{{}, {Name: "worst", Shake: Shake{Reach: 5, Seed: 2}, Condition: Condition{Noise: 4, Flicker: 0.02, Shutter: 0.4}, Seed: 9}} {
		for _, name := range []string{"camera-mixed", "dissolve", "lens-pass", "flashes"} {
			one, err := named(t, name).With(v)
			if err != nil {
				t.Fatal(err)
			}
			two, _ := named(t, name).With(v)
			frames := []int{0, 61, 62, 66, 40, 88, one.Frames - 1}
			want := map[int]*image.YCbCr{}
			for _, f := range frames {
				want[f] = drawn(t, one, f)
			}
			order := rand.New(rand.NewSource(1)).Perm(len(frames))
			var wg sync.WaitGroup
			for _, i := range append(order, order...) {
				wg.Add(1)
				go func() {
					defer wg.Done()
					f := frames[i]
					got := two.NewFrame()
					if err := two.Draw(got, f); err != nil || !sameBytes(got, want[f]) {
						t.Errorf("%s frame %d differs (%v)", one.Name, f, err)
					}
				}()
			}
			wg.Wait()
			if sameBytes(want[0], want[40]) {
				t.Errorf("%s: frames 0 and 40 look alike", one.Name)
			}
		}
	}
}

// Drawing into part of a larger picture must leave the rest alone.
func TestDrawIntoSubImage(t *testing.T) {
	sc := named(t, "acting")
	big := image.NewYCbCr(image.Rect(0, 0, sc.Width+8, sc.Height+6), image.YCbCrSubsampleRatio420)
	for i := range big.Y {
		big.Y[i] = 7
	}
	sub := big.SubImage(image.Rect(4, 2, 4+sc.Width, 2+sc.Height)).(*image.YCbCr)
	if err := sc.Draw(sub, 30); err != nil {
		t.Fatal(err)
	}
	want := drawn(t, sc, 30)
	for y := range sc.Height {
		a := sub.Y[y*sub.YStride:][:sc.Width]
		if !bytes.Equal(a, want.Y[y*want.YStride:][:sc.Width]) {
			t.Fatalf("row %d differs", y)
		}
	}
	if big.Y[0] != 7 || big.Y[3+2*big.YStride] != 7 || big.Y[4+sc.Width+2*big.YStride] != 7 {
		t.Error("drew outside of the sub-image")
	}
}

func TestDrawRefuses(t *testing.T) {
	sc := named(t, "acting")
	for name, err := range map[string]error{
		"frame before":  sc.Draw(sc.NewFrame(), -1),
		"frame after":   sc.Draw(sc.NewFrame(), sc.Frames),
		"wrong size":    sc.Draw(image.NewYCbCr(image.Rect(0, 0, 16, 16), image.YCbCrSubsampleRatio420), 0),
		"wrong samples": sc.Draw(image.NewYCbCr(image.Rect(0, 0, sc.Width, sc.Height), image.YCbCrSubsampleRatio444), 0),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// centroid returns the middle of weight of |a-b| in luma within r of p.
func centroid(a, b *image.YCbCr, p Point, r float64) Point {
	sum, sx, sy := 0.0, 0.0, 0.0
	for y := int(p.Y - r); y <= int(p.Y+r); y++ {
		for x := int(p.X - r); x <= int(p.X+r); x++ {
			if !(image.Pt(x, y).In(a.Rect)) {
				continue
			}
			d := math.Abs(float64(a.Y[a.YOffset(x, y)]) - float64(b.Y[b.YOffset(x, y)]))
			sum, sx, sy = sum+d, sx+d*(float64(x)+0.5), sy+d*(float64(y)+0.5)
		}
	}
	if sum == 0 {
		return Point{math.Inf(1), math.Inf(1)} // nothing there: as far off as can be
	}
	return Point{sx / sum, sy / sum}
}

// Dots at known places of the world must show where the camera's truth, step by
// step from their first place, says they are.
func TestCameraTruthMatchesPicture(t *testing.T) {
	const frames = 40
	camera := Camera{X: 5, Zoom: 0.9, Shake: Shake{Reach: 6, Roll: 1, Seed: 4}, Moves: []CameraMove{{From: 2, To: 36, DX: 60, DY: -25, Zoom: 1.3, Roll: 8}}}
	spots := []Point{{-120.3, -60.2}, {90.6, -70.9}, {10.1, 20.7}, {140.2, 80.4}, {-90, 90}}
	var dots []Ball
	for _, p := range spots {
		dots = append(dots, Ball{Radius: 6, X: p.X, Ground: p.Y + 6, Start: 1e6, Restitution: 0.5})
	}
	shot := Shot{Frames: frames, Camera: camera, Backdrop: Backdrop{Style: Line, Plain: true, Ground: 5000}}
	empty := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{shot}})
	shot.Balls = dots
	full := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{shot}})
	for i := range full.shots[0].cast {
		// Plain discs: marks would move the middle of weight.
		full.shots[0].cast[i].dress = costume{base: []paint{{tone: grey(40)}}, marks: [][]mark{nil}}
	}
	steps := full.Truth().Camera
	at := make([]Point, len(spots))
	worst, moved := 0.0, 0.0
	for f := range frames {
		a, b := drawn(t, full, f), drawn(t, empty, f)
		for i := range spots {
			if f == 0 {
				// Zoom 0.9, no roll, camera at (5,0) and its shake: from the geometry.
				at[i] = full.viewOf(full.shots[0], 0).onto(640, 360).at(spots[i])
			} else {
				at[i] = stepped(at[i], steps[f], Point{320, 180})
			}
			d := centroid(a, b, at[i], 11).sub(at[i]).norm()
			worst, moved = math.Max(worst, d), math.Max(moved, math.Hypot(steps[f].DX, steps[f].DY))
		}
	}
	if worst > 0.05 {
		t.Errorf("a dot lies %.3f px from where the truth puts it", worst)
	}
	if moved < 2 {
		t.Errorf("the camera moves %.2f px at most: this shows nothing", moved)
	}
}

// stepped applies the documented map of a camera step, written out by hand.
func stepped(p Point, s CameraStep, c Point) Point {
	r := s.Roll * math.Pi / 180
	x, y := p.X-c.X, p.Y-c.Y
	return Point{
		c.X + s.Zoom*(math.Cos(r)*x-math.Sin(r)*y) - s.DX,
		c.Y + s.Zoom*(math.Sin(r)*x+math.Cos(r)*y) - s.DY,
	}
}

// The backdrop must follow the same camera: a dot of its own is the door knob
// at (100, ground-100) of the line style.
func TestBackdropFollowsCamera(t *testing.T) {
	sc := mustNew(t, Spec{Width: 1280, Height: 720, Shots: []Shot{{
		Frames: 30, Backdrop: Backdrop{Style: Line, Plain: true},
		Camera: Camera{X: 50, Moves: []CameraMove{{From: 0, To: 29, DX: 43, DY: 11, Zoom: 1.17, Roll: 3, Ease: Linear}}},
	}}})
	paper := mustNew(t, Spec{Width: 1280, Height: 720, Shots: []Shot{{Frames: 30, Backdrop: Backdrop{Style: Line, Plain: true, Ground: 5000}}}})
	blank := drawn(t, paper, 0)
	for f := range 30 {
		p := sc.viewOf(sc.shots[0], float64(f)).onto(1280, 720).at(Point{100, 18})
		if d := centroid(drawn(t, sc, f), blank, p, 11).sub(p).norm(); d > 0.05 {
			t.Errorf("frame %d: knob lies %.3f px from its place", f, d)
		}
	}
}

// A pan to the right has positive travel, a push a zoom over 1, and the sums of
// a shot come to what the camera was asked for.
func TestCameraTruthOfShots(t *testing.T) {
	tests := []struct {
		scene, kind string
		x, y, zoom  float64 // at 320 by 180 a stage unit is half a pixel
	}{
		{"acting", "still", 0, 0, 1}, {"camera-pan", "pan", 70, 0, 1}, {"camera-tilt", "tilt", 0, 30, 1},
		{"camera-push", "push", 0, 0, 1.35}, {"camera-pull", "pull", 0, 0, 1 / 1.3},
	}
	for _, c := range tests {
		s := named(t, c.scene).Truth().Shots[0]
		if s.Kind != c.kind || math.Abs(s.TravelX-c.x) > 1e-9 || math.Abs(s.TravelY-c.y) > 1e-9 || math.Abs(s.Zoom-c.zoom) > 1e-9 {
			t.Errorf("%s: %+v, want %s by (%g, %g), zoom %g", c.scene, s, c.kind, c.x, c.y, c.zoom)
		}
	}
	for _, name := range []string{"camera-handheld", "camera-mixed"} {
		if s := named(t, name).Truth().Shots[0]; "camera-"+s.Kind != name {
			t.Errorf("%s is called %s", name, s.Kind)
		}
	}
}

// In a conform the whole picture repeats, grain and all, and only where the
// pattern says.
func TestConformRepeatsWholePictures(t *testing.T) {
	for name, repeats := range map[string]func(f int) bool{
		"conform-24-in-30": func(f int) bool { return f%5 == 1 },
		"conform-12-in-24": func(f int) bool { return f%2 == 1 },
	} {
		sc := named(t, name)
		before := drawn(t, sc, 0)
		for f := 1; f < 31; f++ {
			now := drawn(t, sc, f)
			if got := sameBytes(before, now); got != repeats(f) {
				t.Errorf("%s frame %d repeats: %v, want %v", name, f, got, repeats(f))
			}
			if step := sc.Truth().Camera[f]; repeats(f) && (step.DX != 0 || step.DY != 0) {
				t.Errorf("%s frame %d: camera travels on a repeat", name, f)
			}
			before = now
		}
	}
}

// Grain has the deviation asked for, in luma and half of it in chroma.
func TestNoiseSigma(t *testing.T) {
	for _, sigma := range []float64{2, 6} {
		clean := named(t, "acting-preview")
		noisy, err := clean.With(Variant{Condition: Condition{Noise: sigma}, Seed: 5})
		if err != nil {
			t.Fatal(err)
		}
		a, b := drawn(t, clean, 3), drawn(t, noisy, 3)
		// Rounding to levels adds 1/12 for each of the two pictures.
		if got, want := deviation(a.Y, b.Y), math.Sqrt(sigma*sigma+1.0/6); math.Abs(got-want) > 0.03*want {
			t.Errorf("sigma %g: luma deviates by %.3f", sigma, got)
		}
		if got, want := deviation(a.Cb, b.Cb), math.Sqrt(sigma*sigma/4+1.0/12); math.Abs(got-want) > 0.05*want {
			t.Errorf("sigma %g: chroma deviates by %.3f", sigma, got)
		}
	}
}

func deviation(a, b []uint8) float64 {
	sum, squares := 0.0, 0.0
	for i := range a {
		d := float64(a[i]) - float64(b[i])
		sum, squares = sum+d, squares+d*d
	}
	n := float64(len(a))
	return math.Sqrt(squares/n - sum*sum/n/n)
}

func meanLuma(f *image.YCbCr) float64 {
	sum := 0
	for _, v := range f.Y {
		sum += int(v)
	}
	return float64(sum) / float64(len(f.Y))
}

func TestFadesFlashesAndContrast(t *testing.T) {
	fades := named(t, "fades")
	dark, full := meanLuma(drawn(t, fades, 0)), meanLuma(drawn(t, fades, 12))
	if want := 16 + (full-16)/13; math.Abs(dark-want) > 1 {
		t.Errorf("first frame of a fade over 12 has luma %.1f, want %.1f", dark, want)
	}
	flash := named(t, "flashes")
	for f := 59; f <= 62; f++ {
		lit := meanLuma(drawn(t, flash, f)) > 1.3*meanLuma(drawn(t, flash, 58))
		if want := f == 60 || f == 61; lit != want {
			t.Errorf("frame %d flashes: %v", f, lit)
		}
	}
	if got := meanLuma(drawn(t, flash, 60)); math.Abs(got-(meanLuma(drawn(t, flash, 58))*0.15+235*0.85)) > 1 {
		t.Errorf("a flash begins at luma %.1f", got)
	}
	// Halfway through a dissolve of 12 the two shots have equal shares, give or take half a step.
	both := named(t, "dissolve")
	first, second := both.shots[0], both.shots[1]
	if _, other, share := both.shotsAt(second.start + 5); other != second || math.Abs(share-6.0/13) > 1e-12 {
		t.Errorf("the sixth of 12 frames of a dissolve shows %g of the next shot", share)
	}
	if _, other, _ := both.shotsAt(first.end); other != second {
		t.Error("the dissolve ends before the first shot does")
	}
	if _, other, _ := both.shotsAt(second.start - 1); other != nil {
		t.Error("the dissolve begins too early")
	}
	low, err := named(t, "acting").With(Variant{Condition: Condition{Contrast: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	if a, b := meanLuma(drawn(t, named(t, "acting"), 0)), meanLuma(drawn(t, low, 0)); math.Abs(b-(126+(a-126)/2)) > 0.6 {
		t.Errorf("half contrast takes mean luma from %.1f to %.1f", a, b)
	}
}

// Flicker scales the light about black: a black picture stays black.
func TestFlickerKeepsBlack(t *testing.T) {
	black := newCanvas(16, 16)
	black.clear(tone{16, 128, 128})
	grey := newCanvas(16, 16)
	grey.clear(tone{116, 128, 128})
	a, b := image.NewYCbCr(image.Rect(0, 0, 16, 16), image.YCbCrSubsampleRatio420), image.NewYCbCr(image.Rect(0, 0, 16, 16), image.YCbCrSubsampleRatio420)
	sum, squares := 0.0, 0.0
	const n = 2000
	for f := range n {
		c := Condition{Flicker: 0.05}
		c.develop(a, black, 3, f)
		c.develop(b, grey, 3, f)
		if a.Y[0] != 16 || a.Cb[0] != 128 {
			t.Fatalf("frame %d: black has luma %d, chroma %d", f, a.Y[0], a.Cb[0])
		}
		d := (float64(b.Y[0]) - 16) / 100
		sum, squares = sum+d, squares+d*d
	}
	if mean, dev := sum/n, math.Sqrt(squares/n-sum*sum/n/n); math.Abs(mean-1) > 0.005 || math.Abs(dev-0.05) > 0.004 {
		t.Errorf("light has mean %.4f and deviation %.4f, want 1 and 0.05", mean, dev)
	}
}

// An open shutter smears what moves and leaves the rest exactly as it was.
func TestShutterBlursOnlyWhatMoves(t *testing.T) {
	sharp := named(t, "acting")
	blurred, err := sharp.With(Variant{Condition: Condition{Shutter: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	if !sameBytes(drawn(t, sharp, 10), drawn(t, blurred, 10)) {
		t.Error("a held pose under a still camera is blurred")
	}
	if sameBytes(drawn(t, sharp, 101), drawn(t, blurred, 101)) {
		t.Error("a fast move is not blurred")
	}
}
