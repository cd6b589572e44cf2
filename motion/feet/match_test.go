package feet

import (
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// texture is a smooth pattern without repeats in the windows used here.
func texture(x, y float64) float64 {
	return 120 + 45*math.Sin(x*0.55+0.3*math.Sin(y*0.4)) + 40*math.Sin(y*0.62+x*0.13)
}

// painted is a stretch of two frames, the second moved by (dx, dy); all of it is
// figure, or all of it is ground.
func painted(dx, dy float64, body bool) *Stretch {
	const w, h = 96, 64
	s := &Stretch{Rate: 24, W: w, H: h, Path: []camera.Similarity{camera.Identity, {A: 1, TX: 1e-9}}}
	for t := range 2 {
		luma := make([]uint8, w*h)
		for i := range luma {
			x, y := float64(i%w)-dx*float64(t), float64(i/w)-dy*float64(t)
			luma[i] = uint8(math.Round(texture(x, y)))
		}
		full := figure.Silhouette{W: w / figure.Shrink, H: h / figure.Shrink, Words: make([]uint64, w*h/64/4)}
		empty := full
		empty.Words = make([]uint64, len(full.Words))
		for i := range full.Words {
			full.Words[i] = ^uint64(0)
		}
		s.Luma = append(s.Luma, luma)
		if body {
			s.Bodies = append(s.Bodies, full)
		} else {
			s.Bodies = append(s.Bodies, empty)
		}
		s.Covers = append(s.Covers, empty)
	}
	return s
}

func TestMatchFindsFractions(t *testing.T) {
	for _, want := range [][2]float64{{0, 0}, {0.37, -0.2}, {-2.6, 1.45}, {4.9, -3.1}} {
		s := painted(want[0], want[1], true)
		s.Path[1] = camera.Identity
		w := s.walker(&figure.Figure{HeightPx: 100})
		m := w.match(0, 1, window{40, 24, 56, 36}, 7, 6)
		if !m.ok || math.Abs(m.dx-want[0]) > 0.05 || math.Abs(m.dy-want[1]) > 0.05 {
			t.Errorf("moved by %v, found %.3f, %.3f (%v)", want, m.dx, m.dy, m.ok)
		}
	}
}

func TestMatchSaysWhenLost(t *testing.T) {
	s := painted(0, 0, true)
	s.Path[1] = camera.Identity
	for i := range s.Luma[1] {
		s.Luma[1][i] = 30 // something else is there
	}
	w := s.walker(&figure.Figure{HeightPx: 100})
	if m := w.match(0, 1, window{40, 24, 56, 36}, 4, 4); m.ok && m.misfit < alikeShare*m.contrast {
		t.Errorf("moved out of reach, yet found at %.2f, %.2f with misfit %.0f of %.0f", m.dx, m.dy, m.misfit, m.contrast)
	}
}

// The ground moves beside the camera's path where the camera travels.
func TestParallax(t *testing.T) {
	s := painted(1.3, 0.4, false)
	w := s.walker(&figure.Figure{HeightPx: 60})
	if dx, dy := w.parallax(0, 1, 48, 32); math.Abs(dx-1.3) > 0.05 || math.Abs(dy-0.4) > 0.05 {
		t.Errorf("ground goes %.3f, %.3f beside the path, want 1.3, 0.4", dx, dy)
	}
	s.Path[1] = camera.Identity
	if dx, dy := w.parallax(0, 1, 48, 32); dx != 0 || dy != 0 {
		t.Errorf("the ground of a still camera goes %.3f, %.3f", dx, dy)
	}
}

func TestShorth(t *testing.T) {
	for _, c := range []struct {
		in   []float64
		want float64
	}{
		{nil, 0},
		{[]float64{3}, 3},
		{[]float64{1, 1.1, 0.9, 1, 7, 8, 30}, 1},
		{[]float64{-5, 2, 2, 2, 9}, 2},
	} {
		if got := shorth(c.in); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("shorth(%v) = %g, want %g", c.in, got, c.want)
		}
	}
}
