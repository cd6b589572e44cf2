package figure

import "testing"

// walkers links the boxes of two figures, 30 and 36 pixels high and 10 wide, whose
// left sides are at given columns.
func walkers(frames int, first, second func(t int) int) *linker {
	l := &linker{gap: 1, world: &world{still: true}}
	for t := range frames {
		a, b := first(t), second(t)
		l.add(t, join([]Box{{a, 14, a + 10, 44}, {b, 10, b + 10, 46}}, l.gap))
	}
	return l
}

func TestUncross(t *testing.T) {
	right := func(t int) int { return 10 + 3*t }
	left := func(t int) int { return 130 - 3*t }
	turn := func(way func(int) int) func(int) int { // where the two touch, frames 19 to 21
		return func(t int) int { return way(20 - max(t-20, 20-t)) }
	}
	tests := []struct {
		name          string
		first, second func(int) int
		at            [2]int // left sides of the shorter and the taller on the last frame
	}{
		{"pass each other", right, left, [2]int{127, 13}},
		{"meet and turn back", turn(right), turn(left), [2]int{13, 127}},
	}
	for _, c := range tests {
		l := walkers(40, c.first, c.second)
		l.uncross(24)
		if len(l.tracks) != 2 {
			t.Errorf("%s: %d tracks", c.name, len(l.tracks))
			continue
		}
		for _, track := range l.tracks {
			first, last := track.At(0), track.At(39)
			want := c.at[0]
			if first.H() == 36 {
				want = c.at[1]
			}
			if first.H() != last.H() || last.X0 != want {
				t.Errorf("%s: %v becomes %v, want one at %d", c.name, first, last, want)
			}
			for f := range 40 {
				if track.At(f).Empty() {
					t.Errorf("%s: not seen on frame %d", c.name, f)
				}
			}
		}
	}
}

// An arm that is told apart for a while is no figure that comes and goes.
func TestUncrossLeavesParts(t *testing.T) {
	l := &linker{gap: 1, world: &world{still: true}}
	for f := range 40 {
		boxes := []Box{{50, 10, 60, 46}}
		if f < 10 || f > 20 {
			boxes = append(boxes, Box{64, 20, 68, 30})
		} else {
			boxes[0].X1 = 68
		}
		l.add(f, boxes)
	}
	n := len(l.tracks)
	l.uncross(24)
	if len(l.tracks) != n {
		t.Errorf("%d tracks of %d left", len(l.tracks), n)
	}
}
