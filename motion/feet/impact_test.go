package feet

import (
	"math"
	"testing"
)

// dropped is a ball of a given size, in pixels, that falls from rest and bounces,
// seen at a rate, with metres of 100 pixels and gravity from free fall.
func dropped(height, restitution, size, rate float64, frames int) *body {
	const g, scale = 9.80665, 100.0 // standard gravity (3rd CGPM, 1901); pixels a metre
	first := math.Sqrt(2 * height / g)
	b := &body{height: size}
	for i := range frames {
		t := float64(i) / rate
		b.seen, b.cut = append(b.seen, true), append(b.cut, false)
		b.w, b.h, b.fill = append(b.w, size), append(b.h, size), append(b.fill, 0.79)
		b.x = append(b.x, 0)
		b.y = append(b.y, -scale*bounceHeight(height, restitution, first, g, t))
	}
	return b
}

func bounceHeight(height, restitution, first, g, t float64) float64 {
	if t < first {
		return height - g*t*t/2
	}
	speed, at := g*first*restitution, first
	for speed > 1e-3 && t > at+2*speed/g {
		at, speed = at+2*speed/g, speed*restitution
	}
	u := t - at
	return max(0, speed*u-g*u*u/2)
}

// The rules of tennis want a ball dropped from 254 cm to rebound 135 to 147 cm;
// those of table tennis one from 30.5 cm to rebound 24 to 26 cm (as quoted).
func TestReboundsOfPublishedBalls(t *testing.T) {
	for _, c := range []struct {
		name             string
		drop, rebound    float64 // metres
		size             float64 // pixels
		flight0, flight1 float64 // frames at 24 a second, published
	}{
		{"tennis", 2.54, 1.41, 7, 25.2, 26.3},
		{"table tennis", 0.305, 0.25, 4, 10.6, 11.1},
	} {
		e := math.Sqrt(c.rebound / c.drop)
		b := dropped(c.drop, e, c.size, 24, 96)
		list, ok := b.bounces()
		if !ok || len(list) < 3 {
			t.Fatalf("%s: impacts %v, want three at least", c.name, list)
		}
		if want := math.Sqrt(2*c.drop/9.80665) * 24; math.Abs(list[0].Frame-want) > 0.1 {
			t.Errorf("%s: first impact at %.2f, want %.2f", c.name, list[0].Frame, want)
		}
		if f := list[1].Frame - list[0].Frame; f < c.flight0 || f > c.flight1 {
			t.Errorf("%s: first flight of %.2f frames, want %.1f to %.1f", c.name, f, c.flight0, c.flight1)
		}
		for i, im := range list[:2] {
			if math.Abs(im.Restitution-e) > 0.03 {
				t.Errorf("%s: impact %d restitution %.3f, want %.3f", c.name, i, im.Restitution, e)
			}
		}
	}
}

func TestNoBounces(t *testing.T) {
	still := dropped(0, 0, 20, 24, 48)
	long := dropped(1, 0.7, 20, 24, 48)
	for i := range long.w {
		long.w[i] = long.h[i] / 3 // a figure's shape
	}
	swing := dropped(0, 0, 20, 24, 48)
	for i := range swing.y {
		swing.y[i] = 40 * math.Sin(float64(i)/6) // goes up and down with no impact
	}
	for name, b := range map[string]*body{"still": still, "figure": long, "swing": swing} {
		if list, ok := b.bounces(); ok {
			t.Errorf("%s: impacts %v, want none", name, list)
		}
	}
}

func TestFitParabola(t *testing.T) {
	// Free fall at 24 frames a second, centimetres (published to a tenth).
	ts, ys := []float64{1, 2, 3, 6, 12}, []float64{0.9, 3.4, 7.7, 30.6, 122.6}
	p, ok := fitParabola(ts, ys)
	if !ok {
		t.Fatal("no parabola through five points")
	}
	if g := 2 * p.c * 24 * 24; math.Abs(g-980.665) > 3 {
		t.Errorf("gravity %.1f cm/s², want 980.7", g)
	}
	if _, ok := fitParabola(ts[:2], ys[:2]); ok {
		t.Error("a parabola through two points")
	}
}
