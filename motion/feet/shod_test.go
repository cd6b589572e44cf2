package feet

import "testing"

// lying gives a walker of walkerOf a lump of a width, in soles, under a contact in all
// its drawings.
func lying(w *walker, c Contact, soles float64) {
	for i, d := range w.draws {
		if d.start < c.Start || d.end > c.End {
			continue
		}
		at := c.part(d.start, d.start)
		half := soles * w.soleAt(i) / 2
		l := lump{x0: int(at.X - half), x1: int(at.X + half), y: int(at.Y), yl: int(at.Y), yr: int(at.Y)}
		w.ends[i] = append(w.ends[i], end{place{float64(l.x0), at.Y}, true, l}, end{place{float64(l.x1), at.Y}, false, l})
	}
}

// A leg whose shoe has the ground's colour seems to slide on its ankle.
func TestShod(t *testing.T) {
	sole := Contact{Start: 10, End: 24, X: 200, LastX: 200, Y: 300, LastY: 300}
	for name, c := range map[string]struct {
		slip, over, soles float64
		keeps             bool
	}{
		"an ankle over an unseen shoe":    {0.06, 10, 0.5, false},
		"a foot that slides":              {0.06, 0, 1, true},
		"a foot that slides on a stair":   {0.06, 10, 1, true},
		"a toe that slides on the ground": {0.06, 2, 0.5, true},
		"an ankle that stays":             {0.01, 10, 0.5, true},
	} {
		w := walkerOf(ones(40)...)
		w.ends = make([][]end, len(w.draws))
		given := Contact{Start: 22, End: 35, X: 250, LastX: 250 + 100*c.slip, Y: 300 - c.over, LastY: 300 - c.over, Slip: 100 * c.slip, Share: c.slip}
		lying(w, sole, 1)
		lying(w, given, c.soles)
		if got := len(w.shod([]Contact{sole, given})) == 2; got != c.keeps {
			t.Errorf("%s: kept %v, want %v", name, got, c.keeps)
		}
	}
}

// ones are n drawings of a frame each.
func ones(n int) []int {
	runs := make([]int, n)
	for i := range runs {
		runs[i] = 1
	}
	return runs
}
