package motion

import (
	"testing"

	"holdfast/motion/figure"
)

const barsW, barsH = 64, 100

// barred are frames with bars of some heights and levels, between which at(x, y, t) is
// seen.
func barred(frames, above, below int, level uint8, at func(x, y, t int) uint8) []*figure.Layer {
	var list []*figure.Layer
	for t := range frames {
		l := &figure.Layer{Luma: make([]uint8, barsW*barsH)}
		for i := range l.Luma {
			x, y := i%barsW, i/barsW
			l.Luma[i] = level
			if y >= above && y < barsH-below {
				l.Luma[i] = at(x, y, t)
			}
		}
		list = append(list, l)
	}
	return list
}

func street(x, y, _ int) uint8 { return uint8(60 + (x*7+y*3)%90) }

func TestBars(t *testing.T) {
	night := func(x, y, t int) uint8 { return 18 }
	lamp := func(x, y, t int) uint8 {
		if x > 30 && x < 36 {
			return 200
		}
		return 16
	}
	dawn := func(x, y, t int) uint8 { // the last frame is light
		if t == 2 {
			return 120
		}
		return 16
	}
	for name, c := range map[string]struct {
		layers []*figure.Layer
		want   Bars
		ok     bool
	}{
		"the picture fills its frame":      {barred(3, 0, 0, 16, street), Bars{}, true},
		"bars":                             {barred(3, 12, 12, 16, street), Bars{12, 12}, true},
		"bars of full range, a row off":    {barred(3, 12, 11, 0, street), Bars{12, 11}, true},
		"a bar above only":                 {barred(3, 12, 0, 16, street), Bars{}, true},
		"a dark sky and a bar":             {barred(3, 18, 12, 16, street), Bars{}, true},
		"bars that are grey":               {barred(3, 12, 12, 60, street), Bars{}, true},
		"bars and a picture that comes up": {barred(3, 12, 12, 16, dawn), Bars{12, 12}, true},
		"night":                            {barred(3, 12, 12, 16, night), Bars{}, false},
		"a thin thing before black":        {barred(3, 12, 12, 16, lamp), Bars{}, false},
		"a slit":                           {barred(3, 40, 40, 16, street), Bars{}, false},
	} {
		if got, ok := bars(c.layers, barsW, barsH); got != c.want || ok != c.ok {
			t.Errorf("%s: %v %v, want %v %v", name, got, ok, c.want, c.ok)
		}
	}
}

// What is too dark to tell has the bars of what was seen before.
func TestBarsOfAClip(t *testing.T) {
	dark := barred(2, 0, 0, 16, func(x, y, t int) uint8 { return 16 })
	wide, full := barred(2, 12, 12, 16, street), barred(2, 0, 0, 16, street)
	for name, c := range map[string]struct {
		stretches [][]*figure.Layer
		last, all Bars
	}{
		"dark after light":  {[][]*figure.Layer{wide, dark}, Bars{12, 12}, Bars{12, 12}},
		"light after dark":  {[][]*figure.Layer{dark, wide}, Bars{12, 12}, Bars{12, 12}},
		"of several shapes": {[][]*figure.Layer{wide, full}, Bars{}, Bars{}},
		"nothing but night": {[][]*figure.Layer{dark, dark}, Bars{}, Bars{}},
	} {
		var k barKeeper
		var last Bars
		for _, s := range c.stretches {
			last = k.of(s, barsW, barsH)
		}
		if last != c.last || k.all() != c.all {
			t.Errorf("%s: %v and of all %v, want %v and %v", name, last, k.all(), c.last, c.all)
		}
	}
}
