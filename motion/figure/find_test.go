package figure

import (
	"math"
	"testing"

	"holdfast/motion/travel"
)

// boxNear fails where a side of a box is more than some pixels off.
func boxNear(t *testing.T, what string, got, want Box, within int) {
	t.Helper()
	for _, d := range []int{got.X0 - want.X0, got.Y0 - want.Y0, got.X1 - want.X1, got.Y1 - want.Y1} {
		if d > within || d < -within {
			t.Errorf("%s: box %v, want %v within %d", what, got, want, within)
			return
		}
	}
}

// clipTo cuts a box off at the picture's sides.
func clipTo(b Box) Box {
	return Box{max(0, b.X0), max(0, b.Y0), min(viewW, b.X1), min(viewH, b.Y1)}
}

func TestWalkingFigure(t *testing.T) {
	pan := func(t int) float64 { return 1.2 * float64(t) }
	for name, c := range map[string]clip{
		"crossing":             {50, meadow, nil, crossing, 0},
		"crossing, in grain":   {50, meadow, nil, crossing, 4},
		"crossing plain":       {50, plain, nil, crossing, 0},
		"crossing under a pan": {50, meadow, pan, crossing, 1},
	} {
		found := c.find(t)
		if found.Method != ByPlate || len(found.Figures) != 1 {
			t.Errorf("%s: %d figures by %s, want one by plate", name, len(found.Figures), found.Method)
			continue
		}
		f := found.Figures[0]
		if f.Rooted {
			t.Errorf("%s: called rooted", name)
		}
		if math.Abs(f.HeightPx-84) > 6 {
			t.Errorf("%s: %g px high, want 84", name, f.HeightPx)
		}
		for frame := 8; frame < c.frames-2; frame++ {
			boxNear(t, name, f.At(frame), clipTo(crossing(frame)[0].Box), 5)
		}
		regionOn(t, name, found, 25, crossing(25)[0].Box)
	}
}

// regionOn fails where the cells in the middle of a box are not the figure's or
// cells far from it are.
func regionOn(t *testing.T, what string, found *Found, frame int, b Box) {
	t.Helper()
	m := travel.Map{Cols: found.Regions[frame].Cols, Rows: found.Regions[frame].Rows}
	far := b.Grow(4 * travel.CellSide)
	for i, in := range found.Regions[frame].Cells {
		x, y := m.Bounds(i)
		x, y = x+travel.CellSide/2, y+travel.CellSide/2
		switch {
		case !in && x >= b.X0+4 && x < b.X1-4 && y >= b.Y0+4 && y < b.Y1-4:
			t.Errorf("%s: the cell at (%d, %d) inside %v is not the figure's", what, x, y, b)
			return
		case in && (x < far.X0 || x >= far.X1 || y < far.Y0 || y >= far.Y1):
			t.Errorf("%s: the cell at (%d, %d) far from %v is the figure's", what, x, y, b)
			return
		}
	}
}

// waving stands and moves an arm up and down at its side.
func waving(t int) []block {
	arm := 70 - int(math.Round(24*math.Sin(float64(t)/5)))
	return []block{red(100, 40, 24, 84), red(124, arm, 20, 10)}
}

func TestRootedFigure(t *testing.T) {
	found := clip{60, meadow, nil, waving, 1}.find(t)
	if len(found.Figures) != 1 || !found.Figures[0].Rooted {
		t.Fatalf("%d figures %+v, want one that is rooted", len(found.Figures), found.Figures)
	}
	// Only the arm ever moves, from 46 to 94 and 10 thick.
	boxNear(t, "all of the arm's ways", found.Figures[0].Union(), Box{124, 46, 144, 104}, 8)
}

// A figure that stands for most frames and leaves in the end is seen, in its
// full height, while it stands.
func TestFigureThatLeaves(t *testing.T) {
	blocks := func(t int) []block { return []block{red(60+max(0, 6*(t-40)), 40, 24, 84)} }
	found := clip{62, meadow, nil, blocks, 2}.find(t)
	if found.Method != ByPlate || len(found.Figures) != 1 {
		t.Fatalf("%d figures by %s, want one by plate", len(found.Figures), found.Method)
	}
	for frame := range 60 {
		boxNear(t, "figure that leaves", found.Figures[0].At(frame), blocks(frame)[0].Box, 5)
	}
}

func TestTwoFigures(t *testing.T) {
	blocks := func(t int) []block {
		return []block{red(-20+3*t, 20, 20, 50), {Box{220 - 3*t, 80, 240 - 3*t, 128}, 60, 150, 110}}
	}
	found := clip{60, meadow, nil, blocks, 1}.find(t)
	if found.Method != ByPlate || len(found.Figures) != 2 {
		t.Fatalf("%d figures by %s, want two by plate", len(found.Figures), found.Method)
	}
	for frame := 10; frame < 55; frame++ {
		up, down := found.Figures[0].At(frame), found.Figures[1].At(frame)
		if up.Y0 > down.Y0 {
			up, down = down, up
		}
		boxNear(t, "upper figure", up, clipTo(blocks(frame)[0].Box), 5)
		boxNear(t, "lower figure", down, clipTo(blocks(frame)[1].Box), 5)
	}
	if h := found.Height(); math.Abs(h-50) > 6 {
		t.Errorf("tallest is %g px, want 50", h)
	}
}

// Where nearly all of the picture is busy no plate can be made.
func TestCrowdedPicture(t *testing.T) {
	// Twelve lanes, each full of boxes of many colours that go by without a gap.
	c := clip{30, plain, nil, func(t int) []block {
		var crowd []block
		for lane := range 12 {
			shift := t * (2 + lane%2)
			for k := shift / 30; k <= (shift+viewW)/30; k++ {
				x, hue := 30*k-shift, k*k*37+lane*91
				crowd = append(crowd, block{Box{x, 12 * lane, x + 30, 12*lane + 12}, uint8(70 + hue%160), uint8(60 + hue*3%140), uint8(60 + hue*7%140)})
			}
		}
		return crowd
	}, 0}
	found := c.find(t)
	if found.Method != ByMotion || len(found.Figures) != 1 {
		t.Fatalf("%d figures by %s, want one by motion", len(found.Figures), found.Method)
	}
	if b := found.Figures[0].Union(); b.W() < viewW/2 || b.H() < viewH/2 {
		t.Errorf("what moves covers %v, want most of %d by %d", b, viewW, viewH)
	}
}

func TestNothingMoves(t *testing.T) {
	stands := func(int) []block { return []block{red(90, 30, 40, 90)} }
	lamp := func(t int) []block {
		b := red(90, 30, 40, 90)
		if t >= 12 {
			b.luma += 50
		}
		return []block{b}
	}
	for name, c := range map[string]clip{
		"a lamp goes on":            {20, meadow, nil, lamp, 0},
		"nothing there":             {20, meadow, nil, func(int) []block { return nil }, 0},
		"nothing there, in grain":   {20, meadow, nil, func(int) []block { return nil }, 6},
		"a figure stands":           {20, meadow, nil, stands, 0},
		"a figure stands, in grain": {20, plain, nil, stands, 6},
		"one frame":                 {1, meadow, nil, stands, 0},
		"two frames":                {2, meadow, nil, stands, 0},
	} {
		found := c.find(t)
		if len(found.Figures) != 0 || found.Height() != 0 {
			t.Errorf("%s: %d figures, %g px high; want none", name, len(found.Figures), found.Height())
		}
	}
}
