package picture

import (
	"image"
	"math"
	"math/rand/v2"
	"testing"
)

func newPicture(t *testing.T, w, h int) *Picture {
	t.Helper()
	p, err := New(w, h)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

// frame draws a 4:2:0 frame whose luma is a formula and whose chroma counts up.
func frame(w, h int, luma func(x, y int) float64) *image.YCbCr {
	f := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	for y := range h {
		for x := range w {
			f.Y[y*f.YStride+x] = uint8(math.Round(min(255, max(0, luma(x, y)))))
		}
	}
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = uint8(i), uint8(255-i)
	}
	return f
}

func set(t *testing.T, p *Picture, f *image.YCbCr) {
	t.Helper()
	if err := p.Set(f); err != nil {
		t.Fatal(err)
	}
}

// TestNoise adds normal grain of known deviation to pictures of several kinds.
// Rounding to whole levels adds a twelfth to the variance.
func TestNoise(t *testing.T) {
	const w, h = 320, 180
	grounds := map[string]func(x, y int) float64{
		"plain": func(x, y int) float64 { return 120 },
		"ramp":  func(x, y int) float64 { return 40 + 150*float64(x)/w },
		"waves": func(x, y int) float64 {
			return 128 + 35*math.Sin(float64(x)/7) + 35*math.Cos(float64(y)/9+float64(x)/30)
		},
		// Outlines on a sixth of the columns.
		"bars": func(x, y int) float64 { return 60 + 130*float64(x/12%2) },
	}
	for name, ground := range grounds {
		for _, sigma := range []float64{1, 2, 3.5, 5, 8, 12} {
			draw := rand.New(rand.NewPCG(11, 13))
			p := newPicture(t, w, h)
			set(t, p, frame(w, h, func(x, y int) float64 { return ground(x, y) + sigma*draw.NormFloat64() }))
			want := math.Sqrt(sigma*sigma + 1.0/12)
			tolerance := 0.12*want + 0.25
			if got := p.Noise(); math.IsNaN(got) || math.Abs(got-want) > tolerance {
				t.Errorf("%s with grain of %g levels: %.2f, want %.2f within %.2f", name, sigma, got, want, tolerance)
			}
		}
	}
}

// Where there is no grain there is none, whatever the outlines.
func TestNoiseOfCleanPictures(t *testing.T) {
	const w, h = 160, 90
	for name, luma := range map[string]func(x, y int) float64{
		"black":     func(x, y int) float64 { return 0 },
		"ramp":      func(x, y int) float64 { return float64(x) },
		"rectangle": func(x, y int) float64 { return 200 * float64(x/50%2*(y/40%2)) },
	} {
		p := newPicture(t, w, h)
		set(t, p, frame(w, h, luma))
		if got := p.Noise(); got != 0 {
			t.Errorf("%s: noise %g, want 0", name, got)
		}
	}
}

func TestSizes(t *testing.T) {
	for _, c := range []struct{ w, h, cw, ch int }{
		{1, 1, 1, 1}, {2, 2, 1, 1}, {3, 2, 2, 1}, {2, 3, 1, 2}, {3, 3, 2, 2}, {15, 15, 8, 8}, {33, 17, 17, 9}, {1, 40, 1, 20}, {40, 1, 20, 1},
	} {
		p := newPicture(t, c.w, c.h)
		if p.CW() != c.cw || p.CH() != c.ch || len(p.Y) != c.w*c.h || len(p.Smooth) != c.w*c.h || len(p.Cb) != c.cw*c.ch || len(p.Cr) != c.cw*c.ch {
			t.Errorf("%+v: chroma of %d by %d, planes of %d, %d, %d, %d", c, p.CW(), p.CH(), len(p.Y), len(p.Smooth), len(p.Cb), len(p.Cr))
			continue
		}
		f := frame(c.w, c.h, func(x, y int) float64 { return float64(10 + 3*x + 5*y) })
		set(t, p, f)
		for y := range c.h {
			for x := range c.w {
				if p.Y[y*c.w+x] != f.YCbCrAt(x, y).Y || p.Cb[y/2*c.cw+x/2] != f.YCbCrAt(x, y).Cb || p.Cr[y/2*c.cw+x/2] != f.YCbCrAt(x, y).Cr {
					t.Fatalf("%+v: pixel (%d, %d) differs from the frame's", c, x, y)
				}
			}
		}
		if n := p.Noise(); n != 0 {
			t.Errorf("%+v: noise %g of a ramp, want 0", c, n)
		}
	}
}

func TestNoSuchSizes(t *testing.T) {
	for _, c := range [][2]int{{0, 5}, {5, 0}, {-1, 5}, {5, -1}, {0, 0}} {
		if p, err := New(c[0], c[1]); err == nil {
			p.Close()
			t.Errorf("a picture of %d by %d pixels is made", c[0], c[1])
		}
	}
}

// A frame of another size or subsampling is refused and changes nothing.
func TestWrongFrames(t *testing.T) {
	p := newPicture(t, 8, 6)
	set(t, p, frame(8, 6, func(x, y int) float64 { return 77 }))
	for _, f := range []*image.YCbCr{
		image.NewYCbCr(image.Rect(0, 0, 8, 6), image.YCbCrSubsampleRatio422),
		image.NewYCbCr(image.Rect(0, 0, 8, 6), image.YCbCrSubsampleRatio444),
		image.NewYCbCr(image.Rect(0, 0, 8, 6), image.YCbCrSubsampleRatio440),
		image.NewYCbCr(image.Rect(0, 0, 8, 4), image.YCbCrSubsampleRatio420),
		image.NewYCbCr(image.Rect(0, 0, 10, 6), image.YCbCrSubsampleRatio420),
		image.NewYCbCr(image.Rect(0, 0, 0, 0), image.YCbCrSubsampleRatio420),
	} {
		if p.Set(f) == nil {
			t.Errorf("a frame of %v %v is taken for 8 by 6", f.Rect.Size(), f.SubsampleRatio)
		}
	}
	for i, v := range p.Y {
		if v != 77 || p.Smooth[i] != 77 {
			t.Fatalf("pixel %d is %d, smoothed %d after refusals, want 77", i, v, p.Smooth[i])
		}
	}
}

// A frame that is part of a larger one has rows farther apart than its width.
func TestStridedFrame(t *testing.T) {
	big := frame(40, 30, func(x, y int) float64 { return float64(5*x + 2*y) })
	part := big.SubImage(image.Rect(6, 4, 26, 16)).(*image.YCbCr)
	p := newPicture(t, 20, 12)
	set(t, p, part)
	for y := range 12 {
		for x := range 20 {
			want := big.YCbCrAt(x+6, y+4)
			if c := y/2*p.CW() + x/2; p.Y[y*20+x] != want.Y || p.Cb[c] != want.Cb || p.Cr[c] != want.Cr {
				t.Fatalf("pixel (%d, %d) differs from the frame's", x, y)
			}
		}
	}
}

// TestSmooth blurs a dot and a plane. The oracle is the normal distribution
// itself: a dot of v spreads to v*exp(-r*r/2)/(2*pi).
func TestSmooth(t *testing.T) {
	p := newPicture(t, 21, 15)
	set(t, p, frame(21, 15, func(x, y int) float64 {
		if x == 10 && y == 7 {
			return 250
		}
		return 0
	}))
	for y := range 15 {
		for x := range 21 {
			r2 := float64((x-10)*(x-10) + (y-7)*(y-7))
			want := 250 * math.Exp(-r2/(2*SmoothSigma*SmoothSigma)) / (2 * math.Pi * SmoothSigma * SmoothSigma)
			if got := float64(p.Smooth[y*21+x]); math.Abs(got-want) > 1.2 {
				t.Errorf("blurred dot at (%d, %d): %g, want %.1f", x, y, got, want)
			}
		}
	}
	set(t, p, frame(21, 15, func(x, y int) float64 { return 91 }))
	for i, v := range p.Smooth {
		if v != 91 {
			t.Fatalf("blurred plane of 91 holds %d at %d: the rim lets something in", v, i)
		}
	}
}

// Gray shares the picture's memory: what is set later shows.
func TestGrayShares(t *testing.T) {
	p := newPicture(t, 6, 4)
	g := p.Gray()
	set(t, p, frame(6, 4, func(x, y int) float64 { return float64(20 + x + 10*y) }))
	if g.Rect.Dx() != 6 || g.Rect.Dy() != 4 || g.GrayAt(5, 3).Y != 55 || g.GrayAt(0, 0).Y != 20 {
		t.Errorf("grey picture %v holds %d and %d at its ends, want 20 and 55", g.Rect, g.GrayAt(0, 0).Y, g.GrayAt(5, 3).Y)
	}
}
