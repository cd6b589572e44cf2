package feet

import (
	"slices"
	"testing"
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

func TestUnseen(t *testing.T) {
	out := []Outside{{Start: 10, End: 19}, {Start: 30, End: 39}}
	for _, c := range []struct {
		start, end int
		want       bool
	}{{0, 9, false}, {10, 19, true}, {5, 14, false}, {6, 16, true}, {15, 34, false}, {18, 39, true}} {
		if got := unseen(Contact{Start: c.start, End: c.end}, out); got != c.want {
			t.Errorf("%d to %d: %v, want %v", c.start, c.end, got, c.want)
		}
	}
}
