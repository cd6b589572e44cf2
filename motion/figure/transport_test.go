package figure

import (
	"math"
	"testing"

	"holdfast/motion/travel"
)

// square draws a square of one colour on grey.
func square(t *testing.T, x0, y0, side int) *Layer {
	t.Helper()
	l, err := NewLayer(160, 90)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(l.Close)
	for i := range l.W * l.H {
		colour := [channels]uint8{120, 128, 128, 255}
		if x, y := i%l.W, i/l.W; x >= x0 && y >= y0 && x < x0+side && y < y0+side {
			colour = [channels]uint8{70, 110, 160, 255}
		}
		copy(l.Pix[i*channels:], colour[:])
	}
	return l
}

// TestCarrySquare: a square of area A that goes by d is A d of work, whether or
// not it overlaps the place where it was.
func TestCarrySquare(t *testing.T) {
	const side = 12
	for _, d := range []int{4, 8, 12, 20, 40} {
		from, to := square(t, 30, 40, side), square(t, 30+d, 40, side)
		var places []int
		for i := range from.W * from.H {
			if from.Pix[i*channels] != to.Pix[i*channels] {
				places = append(places, i)
			}
		}
		var c carrier
		got := c.carry(from, to, places)
		if want := float64(side * side * d); math.Abs(got.sum-want) > 0.05*want {
			t.Errorf("by %d: work %.0f, want %.0f", d, got.sum, want)
		}
		if got.top < float64(d) {
			t.Errorf("by %d: the farthest part went %.1f", d, got.top)
		}
	}
}

func TestCarryNothing(t *testing.T) {
	l := square(t, 30, 40, 12)
	var c carrier
	if got := c.carry(l, l, nil); got.sum != 0 || got.top != 0 {
		t.Errorf("nothing changed, yet %+v", got)
	}
}

func TestLostCells(t *testing.T) {
	// Two groups: in the left one flow lost half, in the right one a fifth.
	m := &travel.Map{Cols: 12, Rows: 1, Travel: make([]float32, 12), Lost: make([]bool, 12)}
	for _, i := range []int{0, 2, 6, 7, 8, 9} {
		m.Travel[i] = 2
	}
	for _, i := range []int{1, 3, 10} {
		m.Lost[i] = true
	}
	cells, any := lostCells(m)
	if !any {
		t.Fatal("three lost cells do not count")
	}
	for i, want := range []bool{true, true, true, true, false, false, false, false, false, false, true, false} {
		if cells[i] != want {
			t.Errorf("cell %d: %t, want %t", i, cells[i], want)
		}
	}
	m.Lost[10] = false
	if _, any := lostCells(m); any {
		t.Error("two lost cells count")
	}
}
