package feet

import (
	"testing"

	"holdfast/motion/figure"
)

// marked is one frame in which boxes of working pixels are figure.
func marked(w, h int, boxes ...figure.Box) *Stretch {
	const k = figure.Shrink
	shape := figure.Silhouette{W: w / k, H: h / k, Words: make([]uint64, (w/k*h/k+63)/64)}
	for _, b := range boxes {
		for y := b.Y0 / k; y < b.Y1/k; y++ {
			for x := b.X0 / k; x < b.X1/k; x++ {
				i := y*shape.W + x
				shape.Words[i/64] |= 1 << (i % 64)
			}
		}
	}
	return &Stretch{W: w, H: h, Bodies: []figure.Silhouette{shape}}
}

// Of a figure of 200 pixels the upper half is seen; its shoes are 30 by 10.
func TestShoes(t *testing.T) {
	upper := figure.Box{X0: 100, Y0: 40, X1: 160, Y1: 140}
	for name, c := range map[string]struct {
		below []figure.Box
		want  figure.Box
		ok    bool
	}{
		"nothing":      {nil, figure.Box{}, false},
		"two shoes":    {[]figure.Box{{X0: 90, Y0: 226, X1: 120, Y1: 236}, {X0: 130, Y0: 230, X1: 160, Y1: 240}}, figure.Box{X0: 90, Y0: 226, X1: 160, Y1: 240}, true},
		"a speck":      {[]figure.Box{{X0: 110, Y0: 230, X1: 114, Y1: 234}}, figure.Box{X0: 110, Y0: 230, X1: 114, Y1: 234}, false},
		"a reflection": {[]figure.Box{{X0: 110, Y0: 160, X1: 150, Y1: 230}}, figure.Box{X0: 110, Y0: 160, X1: 150, Y1: 230}, false},
		"right under":  {[]figure.Box{{X0: 110, Y0: 142, X1: 140, Y1: 152}}, figure.Box{X0: 110, Y0: 142, X1: 140, Y1: 152}, false},
		"far beside":   {[]figure.Box{{X0: 300, Y0: 230, X1: 330, Y1: 240}}, figure.Box{}, false},
	} {
		s := marked(400, 300, append(c.below, upper)...)
		s.Figures = []figure.Figure{{Track: figure.Track{Boxes: []figure.Box{upper}}}}
		got, ok := s.shoes(0, 0, upper)
		if got != c.want || ok != c.ok {
			t.Errorf("%s: %v, %v, want %v, %v", name, got, ok, c.want, c.ok)
		}
	}
}

// Beside two feet that stay, a third is none that steps.
func TestOutlast(t *testing.T) {
	stay := []Contact{{Start: 0, End: 90}, {Start: 2, End: 80}}
	for _, c := range []struct {
		contact Contact
		want    int
	}{
		{Contact{Start: 10, End: 14}, 2},
		{Contact{Start: 1, End: 14}, 1},
		{Contact{Start: 40, End: 85}, 1},
		{Contact{Start: 0, End: 90}, 0},
	} {
		if n := outlast(stay, c.contact); n != c.want {
			t.Errorf("%d-%d is outlasted by %d, want %d", c.contact.Start, c.contact.End, n, c.want)
		}
	}
}
