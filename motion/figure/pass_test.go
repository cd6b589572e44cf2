package figure

import "testing"

// large is a dark thing most of half the picture wide that goes through it from
// frame 26 to frame 32.
func large(t int) block {
	const w = 120
	at := float64(t-26) + 0.5
	return block{Box{int(-w + (viewW+w)*at/7), 0, int((viewW + w) * at / 7), viewH}, 60, 120, 130}
}

// resting waves its arm but for frames 20 to 40.
func resting(t int) []block {
	if t > 20 {
		t = max(20, t-20)
	}
	return waving(t)
}

// passed is what blocks shows with a thing passing before the lens.
func passed(blocks func(t int) []block) func(t int) []block {
	return func(t int) []block {
		b := blocks(t)
		if t >= 26 && t <= 32 {
			b = append(b, clipped(large(t)))
		}
		return b
	}
}

// clipped cuts a block off at the picture's sides.
func clipped(b block) block {
	b.Box = clipTo(b.Box)
	return b
}

func TestPassBeforeTheLens(t *testing.T) {
	pan := func(t int) float64 { return float64(t) }
	left := func(t int) (list []block) {
		for _, b := range resting(t) {
			b.X0, b.X1 = b.X0-t+30, b.X1-t+30
			list = append(list, b)
		}
		return list
	}
	for name, c := range map[string]clip{
		"in front of a rest":              {60, meadow, nil, resting, 0},
		"in front of a rest, in grain":    {60, meadow, nil, resting, 3},
		"in front of a rest, under a pan": {60, meadow, pan, left, 0},
	} {
		alone := c.find(t)
		c.blocks = passed(c.blocks)
		found := c.find(t)
		if len(found.Figures) != 1 || len(alone.Figures) != 1 || found.Height() > 1.05*alone.Height() {
			t.Errorf("%s: figures %+v, want %+v", name, found.Figures, alone.Figures)
		}
		for frame := range c.frames {
			if frame >= 24 && frame <= 35 && (found.Mean[frame] > alone.Mean[frame] || found.Top[frame] > alone.Top[frame]) {
				t.Errorf("%s: mean travel %g and top %g to frame %d, alone %g and %g", name, found.Mean[frame], found.Top[frame], frame, alone.Mean[frame], alone.Top[frame])
			}
		}
	}
}

// TestNothingPasses: large things that come and go, but do not pass by.
func TestNothingPasses(t *testing.T) {
	slab := func(x, w int) []block { return []block{clipped(block{Box{x, 0, x + w, viewH}, 60, 120, 130})} }
	for name, blocks := range map[string]func(t int) []block{
		"stays for good":       func(t int) []block { return slab(-120+min(4*t, 200), 120) },
		"swings in and out":    func(t int) []block { return slab([...]int{-120, -70, -40, -70, -120}[min(4, max(0, t-26))], 120) },
		"flashes over all":     func(t int) []block { return slab(0, viewW*min(1, max(0, t-28))*min(1, max(0, 30-t))) },
		"small, passes by":     func(t int) []block { return slab(-40+40*(t-26), 30) },
		"the figure walks":     crossing,
		"nothing moves at all": func(t int) []block { return nil },
	} {
		s := clip{60, meadow, nil, blocks, 1}.film(t)
		p := passesOf(t, s)
		for frame, r := range p.find() {
			if r.Size() > 0 {
				t.Errorf("%s: %d cells hidden on frame %d", name, r.Size(), frame)
			}
		}
	}
}

// passesOf makes ready to look for what passes in a shot of 24 frames a second.
func passesOf(t *testing.T, s shot) *passes {
	t.Helper()
	grid := s.maps[1]
	var seen []tones
	for _, l := range s.layers {
		seen = append(seen, tones(nil).set(l, grid))
	}
	p, err := newPasses(s.layers, s.path, grid, seen, 24)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.close)
	return p
}

// What passes is told on each frame that shows it, and covers what it covers.
func TestHiddenCells(t *testing.T) {
	s := clip{60, meadow, nil, passed(resting), 1}.film(t)
	hidden := passesOf(t, s).find()
	for frame, r := range hidden {
		if want := frame >= 26 && frame <= 32; want != (r.Size() > 0) {
			t.Errorf("frame %d: %d cells hidden", frame, r.Size())
		}
		b := clipTo(large(frame).Box)
		for i, in := range r.Cells {
			x, y := s.maps[1].Bounds(i)
			if whole := x >= b.X0 && x+8 <= b.X1 && y >= b.Y0 && y+8 <= b.Y1; whole && !in {
				t.Errorf("frame %d: the cell at (%d, %d) inside %v is not hidden", frame, x, y, b)
			}
		}
	}
}

func TestDensest(t *testing.T) {
	for _, c := range []struct {
		values []float32
		n      int
		want   float32
	}{
		{nil, 3, 1}, {[]float32{2}, 3, 1}, {[]float32{5, 0.9, 1, 0.2, 1.1, 7}, 3, 1}, {[]float32{3, 3, 3, 9, 10, 11, 12}, 3, 3}, {[]float32{4}, 0, 1},
	} {
		if got := densest(c.values, c.n); got != c.want {
			t.Errorf("densest %d of %v: %g, want %g", c.n, c.values, got, c.want)
		}
	}
}

// What is hidden of a figure that goes on behind what passes is told as hidden.
func TestHiddenSteps(t *testing.T) {
	found := clip{60, meadow, nil, passed(crossing), 1}.find(t)
	for frame, hidden := range found.Hidden {
		b, large := crossing(frame)[0].Box, large(frame).Box
		covered := large.X0 <= b.X0 && large.X1 >= b.X1 && frame >= 26 && frame <= 32
		if covered && !hidden {
			t.Errorf("the step to frame %d is hidden, and not said to be", frame)
		}
		if hidden && (frame < 26 || frame > 33) {
			t.Errorf("the step to frame %d is said to be hidden", frame)
		}
	}
}
