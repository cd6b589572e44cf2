package figure

import (
	"slices"
	"testing"

	"holdfast/motion/travel"
)

// nodder stands with its arm at a height that each frame says, pixels.
func nodder(at func(t int) int) func(t int) []block {
	return func(t int) []block {
		return []block{red(90, 30, 30, 84), red(120, 40+at(t), 24, 14)}
	}
}

// pops films a clip and returns the pops in it at so many frames a second.
func (c clip) pops(t *testing.T, rate float64) []Pop {
	t.Helper()
	s := c.film(t)
	var regions []Region
	var went []float64
	for n := range c.frames {
		r := newRegion(s.maps[1])
		for i := range r.Cells {
			x, y := s.maps[1].Bounds(i)
			for _, b := range c.blocks(n) {
				r.Cells[i] = r.Cells[i] || b.near(x+travel.CellSide/2, y+travel.CellSide/2)
			}
		}
		regions = append(regions, r.Grown())
		went = append(went, 0)
		if n > 0 {
			before, now := c.blocks(n - 1)[1], c.blocks(n)[1]
			went[n] = float64(max(now.Y0-before.Y0, before.Y0-now.Y0))
		}
	}
	return Pops(s.layers, s.path, s.maps, regions, went, 0.25, rate)
}

// Steps that were not measured, of a figure that is not there, are no pops.
func TestNoPopsOfNothing(t *testing.T) {
	s := clip{6, meadow, nil, nodder(func(int) int { return 0 }), 0}.film(t)
	empty := make([]Region, 6)
	for i := range empty {
		empty[i] = newRegion(s.maps[1])
	}
	for _, went := range [][]float64{make([]float64, 6), {0, 0, 9, 9, 0, 0}} {
		if got := Pops(s.layers, s.path, make([]*travel.Map, 6), empty, went, 0, 24); len(got) > 0 {
			t.Errorf("%v: pops %v", went, got)
		}
		if got := Pops(s.layers, s.path, s.maps, empty, went, 0, 24); len(got) > 0 {
			t.Errorf("%v: pops %v", went, got)
		}
	}
}

func TestPops(t *testing.T) {
	jump := func(up int, on ...int) func(int) int {
		return func(t int) int {
			if slices.Contains(on, t) {
				return up
			}
			return 0
		}
	}
	for _, c := range []struct {
		name   string
		clip   clip
		frames []int // first and last of each pop
	}{
		{"one frame", clip{24, meadow, nil, nodder(jump(20, 10)), 0}, []int{10, 10}},
		{"two frames", clip{24, meadow, nil, nodder(jump(20, 10, 11)), 0}, []int{10, 11}},
		{"in grain", clip{24, meadow, nil, nodder(jump(20, 10)), 1}, []int{10, 10}},
		{"three frames", clip{24, meadow, nil, nodder(jump(20, 10, 11, 12)), 0}, nil},
		{"twice", clip{30, meadow, nil, nodder(jump(20, 8, 20)), 0}, []int{8, 8, 20, 20}},
		{"a new pose in two frames", clip{24, meadow, nil, nodder(func(t int) int { return min(40, 20*max(0, t-9)) }), 0}, nil},
		{"there and half back", clip{24, meadow, nil, nodder(func(t int) int {
			switch {
			case t < 10:
				return 0
			case t == 10:
				return 28
			}
			return 14
		}), 0}, nil},
		{"on its way", clip{24, meadow, nil, nodder(func(t int) int { return 2*t - jump(20, 10)(t) }), 0}, []int{10, 10}},
		{"swings on twos", clip{24, meadow, nil, nodder(func(t int) int { return 12 * (t / 2 % 2) }), 0}, nil},
		{"still", clip{24, meadow, nil, nodder(jump(0)), 1}, nil},
	} {
		var got []int
		found := c.clip.pops(t, 24)
		for _, p := range found {
			got = append(got, p.Start, p.End)
		}
		if !slices.Equal(got, c.frames) {
			t.Errorf("%s: pops %+v, want %v", c.name, found, c.frames)
		}
	}
}

// What pops is off for a twelfth of a second, however many frames that has.
func TestPopsLastAsLongAtAnyRate(t *testing.T) {
	off := func(n int) clip {
		return clip{24, meadow, nil, nodder(func(t int) int {
			if t >= 10 && t < 10+n {
				return 20
			}
			return 0
		}), 0}
	}
	for _, c := range []struct {
		rate   float64
		frames int
		want   bool
	}{
		{12, 1, true}, {12, 2, false}, {24000.0 / 1001, 2, true}, {25, 2, true}, {25, 3, false},
		{60, 1, true}, {60, 5, true}, {60, 6, false},
	} {
		if got := off(c.frames).pops(t, c.rate); len(got) > 0 != c.want {
			t.Errorf("%d frames at %g a second: pops %v, want one: %t", c.frames, c.rate, got, c.want)
		}
	}
}
