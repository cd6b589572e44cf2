package flow

import (
	"image"
	"math/rand/v2"
	"slices"
	"testing"
)

// noise returns a blurred random picture, seen (dx, dy) pixels further on.
func noise(w, h int, dx, dy float64) *image.Gray {
	const pad = 32
	draw := rand.New(rand.NewPCG(3, 5))
	bw, bh := w+2*pad, h+2*pad
	src := make([]float64, bw*bh)
	for i := range src {
		src[i] = draw.Float64() * 255
	}
	for range 4 {
		src = blur(blur(src, bw, bh, 1), bw, bh, bw)
	}
	out := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			fx, fy := float64(x+pad)-dx, float64(y+pad)-dy
			ix, iy := int(fx), int(fy)
			u, v := fx-float64(ix), fy-float64(iy)
			i := iy*bw + ix
			value := (1-v)*((1-u)*src[i]+u*src[i+1]) + v*((1-u)*src[i+bw]+u*src[i+bw+1])
			out.Pix[y*w+x] = uint8(min(255, max(0, 128+4*(value-128))))
		}
	}
	return out
}

func blur(src []float64, w, h, step int) []float64 {
	dst := slices.Clone(src)
	for i := step; i < w*h-step; i++ {
		dst[i] = (src[i-step] + 2*src[i] + src[i+step]) / 4
	}
	return dst
}

func calc(t *testing.T, d *DIS, a, b *image.Gray) []float32 {
	t.Helper()
	var f Field
	if err := d.Calc(&f, a, b); err != nil {
		t.Fatal(err)
	}
	return f.UV
}

// OpenCV's acceptance test of dense flow: blurred noise shifted by (1.7, -1.1)
// pixels gives a median within 0.1 of it.
func TestShift(t *testing.T) {
	d, err := NewDIS(Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	uv := calc(t, d, noise(320, 180, 0, 0), noise(320, 180, 1.7, -1.1))
	var u, v []float32
	for i := 0; i < len(uv); i += 2 {
		u, v = append(u, uv[i]), append(v, uv[i+1])
	}
	slices.Sort(u)
	slices.Sort(v)
	if mu, mv := u[len(u)/2], v[len(v)/2]; mu < 1.6 || mu > 1.8 || mv < -1.2 || mv > -1 {
		t.Errorf("median flow %v, %v; want 1.7, -1.1 within 0.1", mu, mv)
	}
}

func TestResultsDoNotDependOnWhatCameBefore(t *testing.T) {
	a, b, c := noise(160, 96, 0, 0), noise(160, 96, 2, 1), noise(160, 96, -5, 3)
	fresh, err := NewDIS(Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer fresh.Close()
	want := calc(t, fresh, a, b)
	used, err := NewDIS(Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer used.Close()
	calc(t, used, a, c)
	SetThreads(1)
	defer SetThreads(-1)
	if got := calc(t, used, a, b); !slices.Equal(got, want) {
		t.Error("flow differs after another pair and with one thread")
	}
}

// A bar five pixels wide that goes its own way keeps it in fine flow.
func TestFineFlowOfThinParts(t *testing.T) {
	const x0, x1 = 60, 65
	d, err := NewFineDIS(0)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	ground, bar := noise(128, 96, 0, 0), noise(128, 96, 40, 0)
	at := func(dy int) *image.Gray {
		p := image.NewGray(ground.Rect)
		copy(p.Pix, ground.Pix)
		for y := 20; y < 76; y++ {
			copy(p.Pix[(y+dy)*p.Stride+x0:(y+dy)*p.Stride+x1], bar.Pix[y*bar.Stride+x0:y*bar.Stride+x1])
		}
		return p
	}
	uv := calc(t, d, at(0), at(4))
	var v []float32
	for y := 24; y < 72; y++ {
		v = append(v, uv[2*(y*128+(x0+x1)/2)+1])
	}
	slices.Sort(v)
	if m := v[len(v)/2]; m < 3.6 || m > 4.4 {
		t.Errorf("median flow down the bar %.2f, want 4 within 0.4", m)
	}
}

func TestRefusals(t *testing.T) {
	d, err := NewDIS(Fast)
	if err != nil {
		t.Fatal(err)
	}
	var f Field
	if d.Calc(&f, noise(64, 64, 0, 0), noise(64, 48, 0, 0)) == nil {
		t.Error("pictures of two sizes are taken")
	}
	if d.Calc(&f, noise(64, MinSide-1, 0, 0), noise(64, MinSide-1, 0, 0)) == nil {
		t.Error("too small a picture is taken")
	}
	d.Close()
	if d.Calc(&f, noise(64, 64, 0, 0), noise(64, 64, 0, 0)) == nil {
		t.Error("a closed DIS calculates")
	}
}
