package figure

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/flow"
	"holdfast/motion/picture"
	"holdfast/motion/travel"
)

const viewW, viewH = 240, 136

// A block is an upright figure of one colour with a dark belt, in picture
// pixels; X1 and Y1 lie outside.
type block struct {
	Box
	luma, cb, cr uint8
}

// A ground is a still background, in world pixels.
type ground func(x, y float64) float64

// meadow is soft and textured everywhere; plain is one level.
func meadow(x, y float64) float64 {
	v := 0.0
	for k := range 5 {
		a := 0.4 + 1.7*float64(k)
		v += math.Sin(2*math.Pi*(x*math.Cos(a)+y*math.Sin(a))/(10+7*float64(k)) + float64(k))
	}
	return 110 + 9*v
}

func plain(x, y float64) float64 { return 110 }

// A clip draws blocks over a ground. camera is where the picture's left edge
// lies in the world on a frame; nil stands at 0.
type clip struct {
	frames int
	ground ground
	camera func(t int) float64
	blocks func(t int) []block
	grain  float64 // deviation, levels
}

func (c clip) at(t int) float64 {
	if c.camera == nil {
		return 0
	}
	return c.camera(t)
}

// bareGrounds keeps what has been worked out of a ground, by its place.
var bareGrounds = map[string][]float64{}

// bare is the ground as seen on a frame, row by row.
func (c clip) bare(t int) []float64 {
	key := fmt.Sprintf("%p at %g", c.ground, c.at(t))
	if v, ok := bareGrounds[key]; ok {
		return v
	}
	v := make([]float64, 0, viewW*viewH)
	for y := range viewH {
		for x := range viewW {
			v = append(v, c.ground(float64(x)+c.at(t), float64(y)))
		}
	}
	bareGrounds[key] = v
	return v
}

func (c clip) draw(f *image.YCbCr, t int) {
	draw := rand.New(rand.NewPCG(uint64(t), 31))
	bare := c.bare(t)
	blocks := c.blocks(t)
	for i := range f.Cb {
		f.Cb[i], f.Cr[i] = 128, 128
	}
	for y := range viewH {
		for x := range viewW {
			v := bare[y*viewW+x]
			for _, b := range blocks {
				if x >= b.X0 && x < b.X1 && y >= b.Y0 && y < b.Y1 {
					v = float64(b.luma)
					if (y-b.Y0)%24 >= 18 { // belts give flow something to follow
						v -= 45
					}
					i := f.COffset(x, y)
					f.Cb[i], f.Cr[i] = b.cb, b.cr
				}
			}
			if c.grain > 0 {
				v += c.grain * draw.NormFloat64()
			}
			f.Y[y*f.YStride+x] = uint8(math.Round(min(255, max(0, v))))
		}
	}
}

// shot is what Find takes: layers, camera path and maps of travel.
type shot struct {
	layers []*Layer
	path   []camera.Similarity
	maps   []*travel.Map
}

// film draws the clip and measures its steps, the camera's way being known.
func (c clip) film(t *testing.T) shot {
	t.Helper()
	return c.filmed(t, c.draw)
}

// filmed is film with frames drawn otherwise.
func (c clip) filmed(t *testing.T, draw func(f *image.YCbCr, n int)) shot {
	t.Helper()
	d, err := flow.NewDIS(flow.Fast)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	var pictures [2]*picture.Picture
	for i := range pictures {
		if pictures[i], err = picture.New(viewW, viewH); err != nil {
			t.Fatal(err)
		}
		defer pictures[i].Close()
	}
	var s shot
	var field flow.Field
	meter := travel.NewMeter(viewW, viewH)
	frame := image.NewYCbCr(image.Rect(0, 0, viewW, viewH), image.YCbCrSubsampleRatio420)
	for n := range c.frames {
		from, to := pictures[(n+1)%2], pictures[n%2]
		draw(frame, n)
		if err := to.Set(frame); err != nil {
			t.Fatal(err)
		}
		l, err := NewLayer(to.CW(), to.CH())
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(l.Close)
		if err := l.Set(to); err != nil {
			t.Fatal(err)
		}
		s.layers = append(s.layers, l)
		s.path = append(s.path, camera.Similarity{A: 1, TX: c.at(0) - c.at(n)})
		if n == 0 {
			s.maps = append(s.maps, nil)
			continue
		}
		if err := d.Calc(&field, from.Gray(), to.Gray()); err != nil {
			t.Fatal(err)
		}
		m := new(travel.Map)
		meter.Measure(m, from, to, &field, camera.Fit{Motion: camera.Similarity{A: 1, TX: c.at(n-1) - c.at(n)}, Gain: 1})
		s.maps = append(s.maps, m)
	}
	return s
}

func (c clip) find(t *testing.T) *Found {
	t.Helper()
	s := c.film(t)
	found, err := Find(s.layers, s.path, s.maps, 24)
	if err != nil {
		t.Fatal(err)
	}
	if len(found.Regions) != c.frames || len(found.Mean) != c.frames || len(found.Top) != c.frames {
		t.Fatalf("%d regions, %d means, %d tops for %d frames", len(found.Regions), len(found.Mean), len(found.Top), c.frames)
	}
	return found
}

// red stands out by colour and level.
func red(x0, y0, w, h int) block { return block{Box{x0, y0, x0 + w, y0 + h}, 180, 100, 170} }

// crossing goes through the picture from left to right.
func crossing(t int) []block { return []block{red(-20+4*t, 40, 24, 84)} }
