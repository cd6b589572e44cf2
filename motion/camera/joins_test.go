package camera

import (
	"math/rand/v2"
	"slices"
	"testing"

	"holdfast/motion/picture"
)

// scenery makes pictures of 64 by 36 that have nothing in common, by number, with
// black above and below where bars is not 0.
type scenery struct{ bars int }

const paintedW, paintedH = 64, 36

// luma is the level of picture no at a pixel, between 40 and 200 in tiles of 8.
func (sc scenery) luma(no, x, y int) float64 {
	draw := rand.New(rand.NewPCG(uint64(no), uint64(100*(y/8)+x/8)))
	return 40 + 160*draw.Float64()
}

// A shade is a mixture of pictures with a blank, share by share.
type shade struct {
	parts map[int]float64 // share by picture
	blank float64         // level of what is left
}

func (sc scenery) paint(t *testing.T, s shade) *picture.Picture {
	t.Helper()
	p, err := picture.New(paintedW, paintedH)
	if err != nil {
		t.Fatal(err)
	}
	for y := range paintedH {
		for x := range paintedW {
			v, left := 0.0, 1.0
			for no, share := range s.parts {
				v, left = v+share*sc.luma(no, x, y), left-share
			}
			v += left * s.blank
			if y < sc.bars || y >= paintedH-sc.bars {
				v = 16
			}
			i := y*paintedW + x
			p.Y[i], p.Smooth[i] = uint8(v+0.5), uint8(v+0.5)
		}
	}
	for i := range p.Cb {
		p.Cb[i], p.Cr[i] = 128, 128
	}
	return p
}

func still(no, n int) []shade { return slices.Repeat([]shade{{parts: map[int]float64{no: 1}}}, n) }

// fading goes from a share of a picture to another in n frames over a blank level.
func fading(no, n int, from, to, blank float64) (list []shade) {
	for i := range n {
		u := float64(i+1) / float64(n+1)
		list = append(list, shade{map[int]float64{no: from + (to-from)*u}, blank})
	}
	return list
}

// mixing dissolves one picture into another in n frames.
func mixing(a, b, n int) (list []shade) {
	for i := range n {
		u := float64(i+1) / float64(n+1)
		list = append(list, shade{parts: map[int]float64{a: 1 - u, b: u}})
	}
	return list
}

func black(n int) []shade { return slices.Repeat([]shade{{blank: 16}}, n) }

func TestJoins(t *testing.T) {
	for _, k := range []struct {
		name  string
		bars  int
		film  [][]shade
		lost  float64 // share of a step's change that flow leaves
		kinds []string
		at    []int
	}{
		{"nothing happens", 0, [][]shade{still(1, 60)}, 1, nil, nil},
		{"dissolve of 12", 0, [][]shade{still(1, 40), mixing(1, 2, 12), still(2, 40)}, 1, []string{Dissolve}, []int{46}},
		{"dissolve of 24", 0, [][]shade{still(1, 40), mixing(1, 2, 24), still(2, 40)}, 1, []string{Dissolve}, []int{52}},
		{"dissolve right at the end", 0, [][]shade{still(1, 40), mixing(1, 2, 12), still(2, 2)}, 1, []string{Dissolve}, []int{46}},
		{"two dissolves", 0, [][]shade{still(1, 30), mixing(1, 2, 10), still(2, 24), mixing(2, 3, 10), still(3, 30)}, 1, []string{Dissolve, Dissolve}, []int{35, 69}},
		{"what flow can follow", 0, [][]shade{still(1, 40), mixing(1, 2, 12), still(2, 40)}, 0.2, nil, nil},
		{"through black that is never quite black", 0, [][]shade{still(1, 40), fading(1, 8, 1, 0, 16), fading(2, 8, 0, 1, 16), still(2, 40)}, 1, []string{Fade}, []int{48}},
		{"through ten frames of black", 0, [][]shade{still(1, 40), fading(1, 8, 1, 0, 16), black(10), fading(2, 8, 0, 1, 16), still(2, 40)}, 1, []string{Fade}, []int{58}},
		{"through white between bars", 5, [][]shade{still(1, 40), fading(1, 8, 1, 0, 235), fading(2, 8, 0, 1, 235), still(2, 40)}, 1, []string{Fade}, []int{48}},
		{"out to black and in at once", 0, [][]shade{still(1, 40), fading(1, 12, 1, 0, 16), still(2, 40)}, 1, []string{Fade}, []int{52}},
		{"the same picture comes back", 0, [][]shade{still(1, 40), fading(1, 8, 1, 0, 16), black(10), fading(1, 8, 0, 1, 16), still(1, 40)}, 1, nil, nil},
		{"a fade in", 0, [][]shade{black(20), fading(1, 12, 0, 1, 16), still(1, 40)}, 1, nil, nil},
		{"a fade out", 0, [][]shade{still(1, 40), fading(1, 12, 1, 0, 16), black(40)}, 1, nil, nil},
		{"the light goes half out", 0, [][]shade{still(1, 40), fading(1, 12, 1, 0.4, 16), fading(1, 1, 0.4, 0.4, 16)}, 1, nil, nil},
	} {
		sc := scenery{k.bars}
		j := NewJoiner(24)
		var got []Join
		var before Thumb
		film := slices.Concat(k.film...)
		for n, s := range film {
			p := sc.paint(t, s)
			now := NewThumb(p)
			lost := 0.0
			if n > 0 {
				lost = k.lost * now.Distance(&before)
			}
			before = now
			if join, ok := j.Push(p, lost); ok {
				if n-join.Frame > j.Look() {
					t.Errorf("%s: join on %d told on frame %d, over %d later", k.name, join.Frame, n, j.Look())
				}
				got = append(got, join)
			}
			p.Close()
		}
		got = append(got, j.End(len(film))...)
		var kinds []string
		var at []int
		for _, join := range got {
			kinds, at = append(kinds, join.Kind), append(at, join.Frame)
		}
		if !slices.Equal(kinds, k.kinds) || !slices.Equal(at, k.at) {
			t.Errorf("%s: joins %+v, want %v on %v", k.name, got, k.kinds, k.at)
		}
	}
}

// A cut is told some frames late; until then black borders may light up, and
// nothing from before that is known any more. What comes after is still told.
func TestShotEndsBeforeBordersLitUp(t *testing.T) {
	j := NewJoiner(24)
	n := 0
	push := func(bars int, film ...shade) (joins []Join) {
		for _, s := range film {
			p := scenery{bars}.paint(t, s)
			if join, ok := j.Push(p, 100); ok {
				joins = append(joins, join)
			}
			p.Close()
			n++
		}
		return joins
	}
	push(5, still(1, 20)...)
	push(0, still(2, 5)...)
	if joins := j.End(18); len(joins) != 0 {
		t.Errorf("joins %+v before the borders lit up", joins)
	}
	joins := push(0, slices.Concat(still(2, 40), mixing(2, 3, 12), still(3, 40))...)
	if joins = append(joins, j.End(n)...); len(joins) != 1 || joins[0].Kind != Dissolve || joins[0].Frame != 71 {
		t.Errorf("joins %+v, want a dissolve on 71", joins)
	}
}
