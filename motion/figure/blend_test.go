package figure

import (
	"math"
	"math/rand/v2"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/travel"
)

// A look is the luma of a frame's layer at a place.
type look func(t int, x, y float64) float64

const looked = 40 // pixels of a side of the layers that looks are drawn on

// grey draws looks of so many frames, with grain of a deviation in levels.
func grey(t *testing.T, frames int, grain float64, l look) []*Layer {
	t.Helper()
	draw := rand.New(rand.NewPCG(7, 3))
	var layers []*Layer
	for n := range frames {
		layer, err := NewLayer(looked, looked)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(layer.Close)
		for i := range looked * looked {
			v := l(n, float64(i%looked), float64(i/looked)) + grain*draw.NormFloat64()
			copy(layer.Pix[i*channels:], []uint8{clamp(v), 128, 128, 255})
		}
		layers = append(layers, layer)
	}
	return layers
}

// seenIn is a map that fits such layers, all of whose cells change; flow lost
// most of them, or none.
func seenIn(lost bool) *travel.Map {
	m := &travel.Map{Cols: (looked*Shrink - 8) / travel.CellSide, Rows: (looked*Shrink - 8) / travel.CellSide}
	m.Travel, m.Lost = make([]float32, m.Cols*m.Rows), make([]bool, m.Cols*m.Rows)
	for i := range m.Travel {
		m.Travel[i], m.Lost[i] = 1, lost && i%3 > 0
	}
	return m
}

// Two pictures without anything in common.
func rows(x, y float64) float64    { return 120 + 50*math.Sin(y/3+x/17) }
func columns(x, y float64) float64 { return 110 + 60*math.Sin(x/4-y/23) }

// mixed is the share of the second picture, none to all over frames 3 to 9.
func mixed(t int) float64 { return min(1, max(0, float64(t-2)/7)) }

func dissolving(t int, x, y float64) float64 {
	return (1-mixed(t))*rows(x, y) + mixed(t)*columns(x, y)
}

// TestBlends counts the cells that are left to travel on each step.
func TestBlends(t *testing.T) {
	const cells = 81
	moving := func(t int, x, y float64) float64 {
		if left := 12 + 2*float64(t); x >= left && x < left+8 && y >= 12 && y < 28 {
			return 250
		}
		return dissolving(t, x, y)
	}
	for _, c := range []struct {
		name        string
		look        look
		grain       float64
		lost        bool
		from, to    int // of the steps looked at
		least, most int // cells left
	}{
		{"before the dissolve", dissolving, 0, true, 1, 2, cells, cells},
		{"in the dissolve", dissolving, 0, true, 3, 9, 0, 2},
		{"after the dissolve", dissolving, 0, true, 10, 11, cells, cells},
		{"in the dissolve, in grain", dissolving, 3, true, 3, 9, 0, 4},
		{"grain alone", func(t int, x, y float64) float64 { return rows(x, y) }, 5, true, 1, 11, cells, cells},
		{"something moves in the dissolve", moving, 0, true, 4, 8, 4, 30},
		{"everything moves", func(t int, x, y float64) float64 { return rows(x, y+2*float64(t)) }, 0, false, 1, 11, cells, cells},
		{"light flickers", func(t int, x, y float64) float64 { return (1 + 0.05*float64(t%3)) * rows(x, y) }, 0, true, 1, 11, cells, cells},
	} {
		layers := grey(t, 12, c.grain, c.look)
		maps := make([]*travel.Map, len(layers))
		path := make([]camera.Similarity, len(layers))
		for i := range maps {
			maps[i], path[i] = seenIn(c.lost), camera.Identity
		}
		b := blends{layers: layers, path: path, grid: maps[0]}
		for _, l := range layers {
			b.seen = append(b.seen, tones(nil).set(l, maps[0]))
		}
		b.settle(maps)
		for step := c.from; step <= c.to; step++ {
			left := 0
			for i := range maps[step].Travel {
				if moves(maps[step], i) {
					left++
				}
			}
			if left < c.least || left > c.most {
				t.Errorf("%s: %d cells left on the step to frame %d, want %d to %d", c.name, left, step, c.least, c.most)
			}
		}
	}
}

// A camera that moves shows other things on every frame: nothing is compared.
func TestNoBlendsUnderAMovingCamera(t *testing.T) {
	layers := grey(t, 12, 0, dissolving)
	b := blends{layers: layers, grid: seenIn(true)}
	maps := make([]*travel.Map, len(layers))
	for i, l := range layers {
		maps[i] = seenIn(true)
		b.path = append(b.path, camera.Similarity{A: 1, TX: 0.5 * float64(i)})
		b.seen = append(b.seen, tones(nil).set(l, maps[0]))
	}
	b.settle(maps)
	if m := maps[6]; !moves(m, 0) || !moves(m, len(m.Travel)-1) {
		t.Error("a dissolve is told under a camera that moves")
	}
}
