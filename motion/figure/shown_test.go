package figure

import (
	"image"
	"math"
	"slices"
	"testing"

	"holdfast/motion/figure/cut"
)

// sea never looks the same twice: what differs from a plate of it is not a figure.
func sea(x, y, t float64) float64 { return meadow(x+9*t+4*math.Sin(t+y/15), y+5*t) }

// drawnAtSea draws blocks over a ground that moves.
func drawnAtSea(t *testing.T, frames int, blocks func(int) []block) shot {
	t.Helper()
	c := clip{frames, plain, nil, blocks, 0}
	return c.filmed(t, func(f *image.YCbCr, n int) {
		c.draw(f, n)
		for i := range f.Y {
			x, y := i%f.YStride, i/f.YStride
			if !slices.ContainsFunc(blocks(n), func(b block) bool { return b.has(x, y) }) {
				f.Y[i] = uint8(math.Round(sea(float64(x), float64(y), float64(n))))
			}
		}
	})
}

func (b Box) has(x, y int) bool { return x >= b.X0 && x < b.X1 && y >= b.Y0 && y < b.Y1 }

func showIn(t *testing.T, s shot, marks ...Mark) *Found {
	t.Helper()
	found, err := FindShown(s.layers, s.path, s.maps, 24, marks)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// agrees is how much of what a silhouette and a box cover together both cover.
func agrees(s *Silhouette, b Box) float64 {
	both, all := 0, 0
	for y := range s.H {
		for x := range s.W {
			in := b.has(x*Shrink, y*Shrink)
			if s.At(x, y) && in {
				both++
			}
			if s.At(x, y) || in {
				all++
			}
		}
	}
	return float64(both) / float64(max(1, all))
}

// A figure before ground that moves is followed both ways from the one box drawn
// around it.
func TestShownFigureBeforeMovingGround(t *testing.T) {
	s := drawnAtSea(t, 40, crossing)
	b := clipTo(crossing(20)[0].Box)
	found := showIn(t, s, Mark{20, b.Grow(6)})
	if found.Method != ByHand || len(found.Figures) != 1 {
		t.Fatalf("%d figures by %s, want one by hand", len(found.Figures), found.Method)
	}
	for frame := 8; frame < 36; frame += 4 {
		want := clipTo(crossing(frame)[0].Box)
		if a := agrees(&found.Bodies[frame], want); a < 0.8 {
			t.Errorf("frame %d: the silhouette agrees to %.2f with %v", frame, a, want)
		}
	}
	if h := found.Figures[0].HeightPx; math.Abs(h-84) > 8 {
		t.Errorf("%g px high, want 84", h)
	}
	if len(found.Mean) != 40 || len(found.Regions) != 40 {
		t.Errorf("%d travels, %d regions", len(found.Mean), len(found.Regions))
	}
}

// Where the plate knows the figure, a loose box around it changes nothing of it.
func TestShownFigureThatThePlateKnows(t *testing.T) {
	c := clip{50, meadow, nil, crossing, 0}
	s := c.film(t)
	want, got := c.find(t), showIn(t, s, Mark{25, clipTo(crossing(25)[0].Box).Grow(8)})
	if got.Method != ByPlate || len(got.Figures) != 1 {
		t.Fatalf("%d figures by %s, want one by plate", len(got.Figures), got.Method)
	}
	for frame := range 50 {
		if got.Figures[0].At(frame) != want.Figures[0].At(frame) || got.Mean[frame] != want.Mean[frame] {
			t.Errorf("frame %d: %v, %g; without the box %v, %g", frame, got.Figures[0].At(frame), got.Mean[frame],
				want.Figures[0].At(frame), want.Mean[frame])
		}
	}
}

// Two boxes on one figure are one figure, boxes on two are two.
func TestShownFiguresAreCounted(t *testing.T) {
	two := func(t int) []block {
		return append(crossing(t), block{Box{200, 40, 226, 120}, 60, 150, 100})
	}
	s := drawnAtSea(t, 24, two)
	at := func(frame, i int) Mark { return Mark{frame, clipTo(two(frame)[i].Box).Grow(5)} }
	if found := showIn(t, s, at(10, 0), at(18, 0)); len(found.Figures) != 1 {
		t.Errorf("two boxes on one figure gave %d", len(found.Figures))
	}
	if found := showIn(t, s, at(6, 0), at(6, 1)); len(found.Figures) != 2 {
		t.Errorf("boxes on two figures gave %d", len(found.Figures))
	}
}

// A box that is the whole picture, or holds nothing, does no harm.
func TestShownNothing(t *testing.T) {
	s := drawnAtSea(t, 8, func(int) []block { return nil })
	for _, b := range []Box{{0, 0, viewW, viewH}, {10, 10, 12, 12}, {viewW - 3, viewH - 3, viewW, viewH}} {
		found := showIn(t, s, Mark{3, b})
		if len(found.Bodies) != 8 || len(found.Mean) != 8 {
			t.Errorf("%v: %d silhouettes, %d travels", b, len(found.Bodies), len(found.Mean))
		}
	}
}

// What cannot be cut out by its colours is what differs from the plate where the
// figure may be.
func TestShapeOfWhatDiffers(t *testing.T) {
	body := newSilhouette(8, 6)
	for _, i := range []int{2*8 + 3, 2*8 + 4, 3*8 + 3, 5*8 + 7} {
		body.set(i)
	}
	mayBe := make([]uint8, 8*6)
	for i := range mayBe {
		if x, y := i%8, i/8; x >= 2 && x < 6 && y >= 1 && y < 5 {
			mayBe[i] = cut.LikelyThing
		}
	}
	s := shape{pix: make([]uint8, 8*6)}
	s.pix[0] = cut.Thing
	s.differing(&body, mayBe)
	if s.area != 3 || s.box != (Box{3, 2, 5, 4}) || s.pix[0] != cut.Ground || !cut.IsThing(s.pix[2*8+4]) {
		t.Errorf("%+v", s)
	}
}
