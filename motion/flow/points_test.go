package flow

import (
	"image"
	"math"
	"testing"
)

// swell is a smooth pattern, seen from (dx, dy).
func swell(w, h int, dx, dy float64) *image.Gray {
	g := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			u, v := float64(x)-dx, float64(y)-dy
			s := math.Sin(u*0.19)*math.Sin(v*0.17) + math.Sin(u*0.05+v*0.07) + math.Sin(u*0.083-v*0.06)
			g.Pix[y*g.Stride+x] = uint8(math.Round(128 + 40*s))
		}
	}
	return g
}

func grid(x0, y0, x1, y1, step int) (list []Point) {
	for y := y0; y <= y1; y += step {
		for x := x0; x <= x1; x += step {
			list = append(list, Point{float64(x), float64(y)})
		}
	}
	return list
}

func TestPointsGoWithThePicture(t *testing.T) {
	for _, want := range []Point{{0, 0}, {0.4, -0.3}, {3.25, 1.5}, {-11, 6.5}} {
		went, missed, err := Points(swell(200, 140, 0, 0), swell(200, 140, want.X, want.Y), grid(60, 50, 140, 90, 20))
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range grid(60, 50, 140, 90, 20) {
			if math.Hypot(went[i].X-p.X-want.X, went[i].Y-p.Y-want.Y) > 0.05 || missed[i] > 0.05 {
				t.Errorf("moved by %v: %v went to %v, missed by %g", want, p, went[i], missed[i])
			}
		}
	}
}

// What a plain square covers cannot be followed, what is beside it can.
func TestMedianLeavesOutWhatIsLost(t *testing.T) {
	from, to := swell(200, 140, 0, 0), swell(200, 140, 2, -1)
	for y := 50; y < 90; y++ {
		for x := 50; x < 70; x++ {
			to.Pix[y*to.Stride+x] = 128
		}
	}
	dx, dy, missed, err := Median(from, to, grid(60, 60, 150, 80, 10))
	if err != nil || math.Abs(dx-2) > 0.05 || math.Abs(dy+1) > 0.05 || missed > 0.5 {
		t.Errorf("went by %g, %g, missed by %g (%v)", dx, dy, missed, err)
	}
	if _, _, missed, err = Median(from, to, grid(58, 66, 62, 74, 2)); err != nil || missed < 1 {
		t.Errorf("what is covered missed by %g only (%v)", missed, err)
	}
	if _, _, missed, err = Median(from, to, nil); err != nil || !math.IsInf(missed, 1) {
		t.Errorf("no points missed by %g (%v)", missed, err)
	}
}

func TestPointsWantOneSize(t *testing.T) {
	if _, _, err := Points(swell(64, 64, 0, 0), swell(64, 60, 0, 0), grid(30, 30, 30, 30, 1)); err == nil {
		t.Error("two sizes were taken")
	}
}

// Part of a picture is followed as a whole one is.
func TestPointsInPartOfAPicture(t *testing.T) {
	part := image.Rect(20, 10, 180, 120)
	a := swell(200, 140, 0, 0).SubImage(part).(*image.Gray)
	b := swell(200, 140, 1.5, 0.5).SubImage(part).(*image.Gray)
	went, _, err := Points(a, b, []Point{{80, 60}})
	if err != nil || math.Hypot(went[0].X-81.5, went[0].Y-60.5) > 0.05 {
		t.Errorf("went to %v (%v)", went, err)
	}
}
