package feet

import (
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// shooter is a stretch in which a textured shoe, 30 by 10 pixels at (20, 44) of a
// figure of 100, is at the given offsets, pixels, one a frame.
func shooter(offsets [][2]float64) *Stretch {
	const w, h = 128, 64
	all := figure.Figure{HeightPx: 100}
	s := &Stretch{Rate: 24, W: w, H: h}
	for _, o := range offsets {
		luma := make([]uint8, w*h)
		body := figure.Silhouette{W: w / figure.Shrink, H: h / figure.Shrink, Words: make([]uint64, w*h/64/4)}
		for i := range luma {
			x, y := float64(i%w)-o[0], float64(i/w)-o[1]
			luma[i] = 20
			if x >= 20 && x < 50 && y >= 44 && y < 54 {
				luma[i] = uint8(math.Round(texture(x, y)))
				k := i/w/figure.Shrink*body.W + i%w/figure.Shrink
				body.Words[k/64] |= 1 << (k % 64)
			}
		}
		s.Luma, s.Bodies, s.Covers = append(s.Luma, luma), append(s.Bodies, body), append(s.Covers, body)
		s.Path, s.Still = append(s.Path, camera.Identity), append(s.Still, false)
		all.Boxes = append(all.Boxes, figure.Box{X1: w, Y1: h})
	}
	s.Figures = []figure.Figure{all}
	return s
}

func TestSkids(t *testing.T) {
	// Eased: 44 pixels in eight frames, up to 8 a frame.
	way := []float64{0, 0, 2, 7, 14, 22, 30, 37, 42, 44, 44}
	flat, step := make([][2]float64, len(way)), make([][2]float64, len(way))
	for i, x := range way {
		flat[i] = [2]float64{x, 0}
		step[i] = [2]float64{x, -10 * math.Sin(math.Pi*x/44)} // a tenth of the height, as a heel
	}
	before := Contact{End: 1, X: 35, Y: 54, LastX: 35, LastY: 54}
	after := Contact{Start: 9, End: 10, X: 79, Y: 54, LastX: 79, LastY: 54}
	other := Contact{Start: 0, End: 10, X: 60, Y: 54, LastX: 60, LastY: 54}
	far := after
	far.X, far.LastX = 95, 95
	for _, c := range []struct {
		name string
		way  [][2]float64
		list []Contact
		want int
	}{
		{"a sole that shoots along the ground", flat, []Contact{before, after}, 1},
		{"a sole that is lifted over it", step, []Contact{before, after}, 2},
		{"while another foot stands", flat, []Contact{before, after, other}, 3},
		{"a stand where it does not come out", flat, []Contact{before, far}, 2},
	} {
		w := shooter(c.way).walker(&figure.Figure{HeightPx: 100})
		w.draws, w.sole = w.s.drawings(0, len(c.way)-1), 0.3
		got := w.skids(c.list)
		if len(got) != c.want {
			t.Errorf("%s: %d contacts, want %d", c.name, len(got), c.want)
			continue
		}
		if c.want > 1 {
			continue
		}
		if g := got[0]; g.Start != 0 || g.End != 10 || math.Abs(g.Slip-44) > 0.5 || math.Abs(g.Share-0.44) > 0.005 || g.LastX != 79 {
			t.Errorf("%s: %+v, want 0 to 10, 44 pixels", c.name, g)
		}
	}
}
