package figure

import (
	"slices"
	"testing"

	"holdfast/motion/travel"
)

// face is a figure 84 pixels high whose lid hangs down by so many pixels.
func face(lid int) []block {
	x := 90
	return []block{red(x, 30, 72, 84), {Box{x + 24, 56, x + 48, 60 + lid}, 70, 118, 150}}
}

// lids are how far the lid hangs on frames from the 10th on; the last of them
// stays.
func lids(down ...int) func(t int) []block {
	return func(t int) []block {
		if t < 10 {
			return face(0)
		}
		return face(down[min(t-10, len(down)-1)])
	}
}

// passing films a clip and returns the frames of passing changes; travel of a
// quarter pixel, 0.3 % of the figure, is no longer still.
func (c clip) passing(t *testing.T) (frames []int) {
	t.Helper()
	s := c.film(t)
	var regions []Region
	for n := range c.frames {
		r := newRegion(s.maps[1])
		box := c.blocks(n)[0].Box
		for i := range r.Cells {
			x, y := s.maps[1].Bounds(i)
			r.Cells[i] = box.near(x+travel.CellSide/2, y+travel.CellSide/2)
		}
		regions = append(regions, r.Grown())
	}
	for n, p := range Passing(s.layers, s.path, s.maps, regions, 0.25, 11) {
		if p {
			frames = append(frames, n)
		}
	}
	return frames
}

// A lid that falls and rises leaves no trace; one that stays down, one that is
// away too long and an arm that swings do.
func TestPassing(t *testing.T) {
	pan := func(t int) float64 { return 2 * float64(t) }
	for _, c := range []struct {
		name string
		clip clip
		want []int
	}{
		{"blink", clip{30, meadow, nil, lids(2, 4, 4, 2, 0), 0}, []int{10, 11, 12, 13, 14}},
		{"blink in grain", clip{30, meadow, nil, lids(2, 4, 4, 2, 0), 1}, []int{10, 11, 12, 13, 14}},
		{"blink under a pan", clip{20, meadow, pan, func(t int) []block {
			list := lids(2, 4, 4, 2, 0)(t)
			for i := range list {
				list[i].X0, list[i].X1 = list[i].X0-int(pan(t)), list[i].X1-int(pan(t))
			}
			return list
		}, 0}, []int{10, 11, 12, 13, 14}},
		{"half a blink", clip{30, meadow, nil, lids(2, 4), 0}, nil},
		{"eyes shut for half a second", clip{40, meadow, nil, append12(2, 4, 0), 0}, nil},
		{"arm", clip{60, meadow, nil, waving, 0}, nil},
	} {
		if got := c.clip.passing(t); !slices.Equal(got, c.want) {
			t.Errorf("%s: passing on the way to %v, want %v", c.name, got, c.want)
		}
	}
}

// A stretch may begin amid a shot, on a frame with a step of its own.
func TestPassingFromTheFirstStepOn(t *testing.T) {
	s := clip{30, meadow, nil, lids(2, 4, 4, 2, 0), 0}.film(t)
	all := newRegion(s.maps[1])
	for i := range all.Cells {
		all.Cells[i] = true
	}
	got := Passing(s.layers[10:], s.path[10:], s.maps[10:], slices.Repeat([]Region{all}, 20), 0.25, 11)
	if slices.Contains(got, true) {
		t.Errorf("a blink that began before the stretch passes: %v", got)
	}
}

// append12 shuts the lid by the given steps, the second kept for 12 frames.
func append12(half, shut, open int) func(t int) []block {
	down := append([]int{half}, slices.Repeat([]int{shut}, 12)...)
	return lids(append(down, half, open)...)
}
