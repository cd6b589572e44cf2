package motion

import (
	"holdfast/motion/figure"
	"holdfast/motion/picture"
)

// A picture of another shape than its frame lies between black bars: figures end at
// them as they do at the rim of the frame.

// Bars are the rows above and below a picture that show nothing, working pixels.
type Bars struct{ Top, Bottom int }

const (
	// barMost is the most, as a share of the frame's height, that one bar takes: 2.39:1
	// in a frame of 4:3 leaves 0.22.
	barMost = 0.23
	// barAlike is how far apart, as a share of it, the heights of the two may be.
	barAlike = 0.01
	// barEdge is the share of a bar's length along which the picture must be seen right
	// beside it: a figure before black is seen along less.
	barEdge = 0.3
	// barRows is in how many rows beside the bar, the first left out: what is coded
	// there is half of either.
	barRows = 4
)

// bars finds those of some frames. ok is false where the frames are too dark to tell.
func bars(layers []*figure.Layer, w, h int) (b Bars, ok bool) {
	most := int(barMost * float64(h))
	for b.Top < h && unlit(layers, w, b.Top) {
		b.Top++
	}
	for b.Bottom < h-b.Top && unlit(layers, w, h-1-b.Bottom) {
		b.Bottom++
	}
	if b.Top > most || b.Bottom > most {
		return Bars{}, false
	}
	if b.Top == 0 || b.Bottom == 0 || float64(max(b.Top-b.Bottom, b.Bottom-b.Top)) > max(1, barAlike*float64(h)) {
		return Bars{}, true
	}
	least := barEdge * float64(w)
	if float64(lit(layers, w, b.Top+1)) < least || float64(lit(layers, w, h-b.Bottom-1-barRows)) < least {
		return Bars{}, false
	}
	return b, true
}

// unlit reports whether nothing is seen in a row of any frame.
func unlit(layers []*figure.Layer, w, row int) bool {
	for _, l := range layers {
		if !picture.Black(l.Luma[row*w:(row+1)*w], 1) {
			return false
		}
	}
	return true
}

// lit is in how many columns something is seen, in any frame, in the rows from one on.
func lit(layers []*figure.Layer, w, row int) (n int) {
	for x := range w {
		if litAt(layers, w, x, row) {
			n++
		}
	}
	return n
}

func litAt(layers []*figure.Layer, w, x, row int) bool {
	for _, l := range layers {
		for y := row; y < row+barRows; y++ {
			if l.Luma[y*w+x] > picture.BlackLevel {
				return true
			}
		}
	}
	return false
}

// A barKeeper remembers the bars of a clip's stretches: what is dark has the bars of
// what was seen before.
type barKeeper struct {
	Bars
	known bool // some stretch was light enough to tell
	mixed bool // not all such have the same
}

// all are the bars of the whole clip, none where its stretches differ.
func (k *barKeeper) all() Bars {
	if k.mixed {
		return Bars{}
	}
	return k.Bars
}

// of returns the bars of the next stretch.
func (k *barKeeper) of(layers []*figure.Layer, w, h int) Bars {
	b, ok := bars(layers, w, h)
	switch {
	case !ok:
		return k.Bars
	case !k.known:
		k.Bars, k.known = b, true
	case b != k.Bars:
		k.mixed = true
	}
	return b
}
