package sheet

import (
	"bytes"
	"math"
)

// Bands are the curves of what moves in each third of a figure's box, top to bottom,
// and in each half of it as the screen has them: mean travel from the frame before in
// figure heights, one value a frame. They need no marking. Of several figures they
// are those of the box around all. The thirds are null where the box is only that of
// what moves, as of a figure that never leaves its place.
type Bands struct {
	Upper  []*float64 `json:"upper"`
	Middle []*float64 `json:"middle"`
	Lower  []*float64 `json:"lower"`
	Left   []*float64 `json:"screen_left"`
	Right  []*float64 `json:"screen_right"`
}

// bandNames are the members of Bands, in order.
var bandNames = [5]string{"upper", "middle", "lower", "screen_left", "screen_right"}

func (b *Bands) lists() [5]*[]*float64 {
	return [5]*[]*float64{&b.Upper, &b.Middle, &b.Lower, &b.Left, &b.Right}
}

// Add adds a frame; NaN is not known.
func (b *Bands) Add(upper, middle, lower, left, right float64) {
	for i, v := range [5]float64{upper, middle, lower, left, right} {
		list := b.lists()[i]
		if math.IsNaN(v) {
			*list = append(*list, nil)
		} else {
			*list = append(*list, &v)
		}
	}
}

// known reports whether there are any.
func (b *Bands) known() bool { return len(b.Upper) > 0 }

func (b *Bands) complete() {
	for _, list := range b.lists() {
		for i, v := range *list {
			(*list)[i] = rounded(v, shareDigits)
		}
	}
}

// check wants a value at or above 0 for each of so many frames, or none at all.
func (b *Bands) check(frames int) error {
	if !b.known() {
		frames = 0
	}
	for i, list := range b.lists() {
		path := "curve.bands." + bandNames[i]
		if len(*list) != frames {
			return bad(path, "has %d values for %d frames", len(*list), frames)
		}
		for k, v := range *list {
			if v != nil && *v < 0 {
				return bad(at(path, k, ""), "is %g", *v)
			}
		}
	}
	return nil
}

// write writes the bands, a line each.
func (b *Bands) write(to *bytes.Buffer) error {
	to.WriteString("{")
	for i, list := range b.lists() {
		if i > 0 {
			to.WriteString(",")
		}
		to.WriteString("\n      \"" + bandNames[i] + "\": ")
		if err := writeLine(to, *list); err != nil {
			return err
		}
	}
	to.WriteString("\n    }")
	return nil
}
