package camera

import (
	"math"
	"testing"

	"holdfast/motion/picture"
)

// levels is a world of one level with a lighter rectangle.
func levels(ground, inner, x0, y0, x1, y1 float64) world {
	return world(func(x, y float64) float64 { return ground }).
		with(x0, y0, x1, y1, func(x, y float64) float64 { return inner })
}

func TestChangeOfTwoFrames(t *testing.T) {
	grey := levels(60, 60, 0, 0, 0, 0)
	for _, c := range []struct {
		name                       string
		from, to                   world
		amount, hard, seen, spread float64
	}{
		{"nothing", ripples, ripples, 0, 0, 0, 0},
		{"all by 5 levels", grey, levels(65, 0, 0, 0, 0, 0), 5, 0, 0, 0},
		{"all by 40 levels", grey, levels(100, 0, 0, 0, 0, 0), 40, 1, 1, 1},
		// Left half of the picture, all that is there: 10 of 20 columns of cells.
		{"half by 40 levels", grey, levels(60, 100, -160, -90, 0, 90), 20, 0.5, 1, 0.5},
	} {
		got := NewChange(view(t, c.from, 0, 1), view(t, c.to, 0, 1), nil)
		near(t, c.name+": amount", got.Amount, c.amount, 0.5)
		near(t, c.name+": hard", got.Hard, c.hard, 0.02)
		near(t, c.name+": seen", got.Seen, c.seen, 0.02)
		near(t, c.name+": spread", got.Spread, c.spread, 0.02)
	}
}

// A thumbnail holds means of luma and chroma; its distance sums all three.
func TestThumb(t *testing.T) {
	p := view(t, levels(60, 100, -160, -90, 0, 90), 0, 1)
	left, right := NewThumb(p), NewThumb(view(t, levels(60, 0, 0, 0, 0, 0), 0, 1))
	if left[0] != 100 || left[thumbW-1] != 60 || left[thumbW*thumbH] != 128 || left[len(left)-1] != 128 {
		t.Errorf("thumbnail holds %v, %v and %v, %v; want 100, 60 and chroma of 128", left[0], left[thumbW-1], left[thumbW*thumbH], left[len(left)-1])
	}
	near(t, "distance", left.Distance(&right), 20, 1e-6)
	near(t, "distance the other way", right.Distance(&left), 20, 1e-6)
	near(t, "distance to itself", left.Distance(&left), 0, 0)
}

// Pictures smaller than the thumbnail have fewer pixels than it has cells.
func TestThumbOfTinyPictures(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {2, 2}, {15, 1}, {3, 8}} {
		p, err := picture.New(size[0], size[1])
		if err != nil {
			t.Fatal(err)
		}
		for i := range p.Y {
			p.Y[i] = 80
		}
		thumb := NewThumb(p)
		for i, v := range thumb[:thumbW*thumbH] {
			if v != 80 {
				t.Errorf("%v: cell %d of the thumbnail is %v, want 80", size, i, v)
				break
			}
		}
		c := NewChange(p, p, nil)
		if c.Amount != 0 || c.Hard != 0 || math.IsNaN(c.Seen+c.Spread) {
			t.Errorf("%v: a picture against itself changes: amount %g, hard %g, seen %g, spread %g", size, c.Amount, c.Hard, c.Seen, c.Spread)
		}
		p.Close()
	}
}
