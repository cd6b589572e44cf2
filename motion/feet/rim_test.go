package feet

import (
	"slices"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// rows is a body whose frames are cut off below where the word has an x.
func rows(first int, word string) *body {
	b := &body{first: first}
	for _, r := range word {
		b.below = append(b.below, r == 'x')
	}
	return b
}

func TestOutside(t *testing.T) {
	for name, c := range map[string]struct {
		body   *body
		rate   float64
		want   []Outside
		cutOff bool
	}{
		"never":              {rows(0, "........"), 24, nil, false},
		"always":             {rows(3, "xxxxxx"), 24, []Outside{{Start: 3, End: 8}}, true},
		"shorter than holds": {rows(0, "..xxx..."), 24, nil, false},
		"as long as a hold":  {rows(0, "..xxxx..."), 24, []Outside{{Start: 2, End: 5}}, false},
		"at 60 a second":     {rows(0, "..xxxxxxxxx..xxxxxxxxxx"), 60, []Outside{{Start: 13, End: 22}}, true},
		"at both ends":       {rows(10, "xxxx.....xxxx"), 24, []Outside{{Start: 10, End: 13}, {Start: 19, End: 22}}, true},
	} {
		if got := c.body.outside(c.rate); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
		if got := c.body.cutOff(); got != c.cutOff {
			t.Errorf("%s: cut off %v, want %v", name, got, c.cutOff)
		}
	}
}

func TestVisible(t *testing.T) {
	s := &Stretch{H: 360}
	out := []Outside{{Start: 10, End: 19}, {Start: 30, End: 39}}
	for name, c := range map[string]struct {
		contact Contact
		keeps   bool
		runs    int
	}{
		"before the run":             {Contact{Start: 0, End: 9, Y: 355}, true, 2},
		"on the rim, in it":          {Contact{Start: 10, End: 19, Y: 355}, false, 2},
		"on the rim, half in it":     {Contact{Start: 5, End: 14, Y: 355}, true, 2},
		"on the rim, more than half": {Contact{Start: 6, End: 16, Y: 355}, false, 2},
		"on the rim, in both":        {Contact{Start: 18, End: 39, Y: 355}, false, 2},
		"above its reflection":       {Contact{Start: 12, End: 19, Y: 260}, true, 1},
		"above it, for a moment":     {Contact{Start: 18, End: 22, Y: 260}, true, 2},
	} {
		kept, runs := s.visible([]Contact{c.contact}, slices.Clone(out), 150)
		if (len(kept) == 1) != c.keeps || len(runs) != c.runs {
			t.Errorf("%s: kept %v and %v, want %v and %d runs", name, kept, runs, c.keeps, c.runs)
		}
	}
}

// A bar below the picture cuts a figure off as the rim of its frame does.
func TestBodyOnABar(t *testing.T) {
	const w, h = 64, 48
	for name, c := range map[string]struct {
		below int // rows of the bar
		want  bool
	}{"a bar under its waist": {12, true}, "no bar": {0, false}, "a bar under its feet": {4, false}} {
		s := &Stretch{Rate: 24, W: w, H: h, Below: c.below, Path: []camera.Similarity{camera.Identity}}
		shape := figure.Silhouette{W: w / figure.Shrink, H: h / figure.Shrink, Words: make([]uint64, w*h/64/4)}
		for y := 4; y < 18; y++ {
			for x := 10; x < 16; x++ {
				i := y*shape.W + x
				shape.Words[i/64] |= 1 << (i % 64)
			}
		}
		s.Bodies = []figure.Silhouette{shape}
		f := &figure.Figure{HeightPx: 28}
		f.Boxes = []figure.Box{{X0: 18, Y0: 6, X1: 34, Y1: 38}}
		if got := s.body(f).below[0]; got != c.want {
			t.Errorf("%s: cut off %v, want %v", name, got, c.want)
		}
	}
}
