package camera

import (
	"math"
	"testing"
)

// hand is where an unsteady hand points on frame i at 24 a second: it sways
// widely and slowly and trembles a little, never quite alike across and down.
func hand(i int) (x, y float64) { return handAt(float64(i)) }

func handAt(i float64) (x, y float64) {
	t := 2 * math.Pi * i / 24
	return 3*math.Sin(0.4*t) + 1.2*math.Sin(1.5*t+1) + 0.5*math.Sin(3.1*t+2),
		3*math.Sin(0.33*t+4) + 1.1*math.Sin(1.8*t) + 0.6*math.Sin(2.7*t+5)
}

// filmed is the steps of a camera that is at the given place and scale on each
// frame.
func filmed(frames int, at func(i int) (x, y, zoom float64)) []Similarity {
	steps := []Similarity{Identity}
	px, py, pz := at(0)
	for i := 1; i < frames; i++ {
		x, y, z := at(i)
		steps = append(steps, Similarity{A: z / pz, TX: px - x, TY: py - y})
		px, py, pz = x, y, z
	}
	return steps
}

// eased goes from 0 to 1 over the given frames, starting and stopping softly.
func eased(i, frames int) float64 {
	u := min(1, float64(i)/float64(frames-1))
	return u * u * (3 - 2*u)
}

// TestSmoothWayAndShake: a driven camera and a hand, alone and together, at
// sizes and rates a sheet meets.
func TestSmoothWayAndShake(t *testing.T) {
	for _, c := range []struct {
		name   string
		frames int
		at     func(i int) (x, y, zoom float64)
		want   string
	}{
		{"hand", 120, func(i int) (float64, float64, float64) { x, y := hand(i); return x, y, 1 }, Handheld},
		{"dolly across", 120, func(i int) (float64, float64, float64) { return 90 * eased(i, 120), 0, 1 }, Pan},
		{"dolly across for half the shot", 120, func(i int) (float64, float64, float64) { return 90 * eased(i, 60), 0, 1 }, Pan},
		{"hand that pans", 120, func(i int) (float64, float64, float64) { x, y := hand(i); return x + 90*eased(i, 120), y, 1 }, Mixed},
		{"hand that tilts", 120, func(i int) (float64, float64, float64) { x, y := hand(i); return x, y + 60*eased(i, 60), 1 }, Mixed},
		{"hand that comes nearer", 120, func(i int) (float64, float64, float64) { x, y := hand(i); return x, y, 1 + 0.2*eased(i, 120) }, Mixed},
		{"hand at a zoom not measured well", 120, func(i int) (float64, float64, float64) {
			x, y := hand(i)
			return x, y, 1 + 0.025*eased(i, 120)
		}, Handheld},
		{"there and back", 96, func(i int) (float64, float64, float64) { return 40 * eased(min(i, 95-i), 48), 0, 1 }, Pan},
		{"on twos", 120, func(i int) (float64, float64, float64) { return 90 * eased(i/2*2, 120), 0, 1 }, Pan},
		{"drive that trembles unseen", 120, func(i int) (float64, float64, float64) {
			return 90 * eased(i, 120), 0.05 * math.Sin(float64(i)), 1
		}, Pan},
		{"push measured by a face that acts", 120, func(i int) (float64, float64, float64) {
			x, y := hand(i)
			return 0.5 * x, 0.5 * y, 1 + 0.08*eased(i, 120) + 0.002*math.Sin(1.3*float64(i))
		}, Push},
		{"stand that a passer-by shakes now and then", 120, func(i int) (float64, float64, float64) {
			if i%20 < 12 {
				i = i / 20 * 20
			}
			x, y := hand(i)
			return x, y, 1
		}, Still},
		{"nudge of the stand", 120, func(i int) (float64, float64, float64) { return 5 * eased(i, 6), 0, 1 }, Still},
	} {
		if got := Summarise(filmed(c.frames, c.at), 640, 360, 24).Kind; got != c.want {
			t.Errorf("%s: called %s, want %s", c.name, got, c.want)
		}
	}
	// Half as large, at 60 a second.
	small := filmed(300, func(i int) (float64, float64, float64) {
		j := float64(i) * 24 / 60
		x, y := handAt(j)
		return x / 2, y / 2, 1
	})
	if got := Summarise(small, 320, 180, 60).Kind; got != Handheld {
		t.Errorf("hand at 60 a second: called %s", got)
	}
}

// A turn alone is no pan.
func TestRoll(t *testing.T) {
	steps := []Similarity{Identity}
	for range 48 {
		sin, cos := math.Sincos(0.1 * math.Pi / 180)
		steps = append(steps, Similarity{A: cos, B: sin})
	}
	if got := Summarise(steps, 640, 360, 24).Kind; got != Mixed {
		t.Errorf("turned by 4.8 degrees: called %s, want %s", got, Mixed)
	}
}

// TestParabola: any parabola is its own smooth way.
func TestParabola(t *testing.T) {
	var way []float64
	for i := range 40 {
		way = append(way, 3-0.7*float64(i)+0.02*float64(i*i))
	}
	if got := unevenness(way, 12); got > 1e-9 {
		t.Errorf("a parabola is uneven by %g", got)
	}
	// The weights for five values, as published in the paper's table: -3, 12, 17,
	// 12, -3 over 35.
	for i, want := range []float64{-3, 12, 17, 12, -3} {
		near(t, "weight", parabola(2)[i], want/35, 1e-12)
	}
}
