package main

import (
	"fmt"
	"math"
)

// framingWithin is how far off an edge of a held figure's box may be, as a share
// of the picture's height or width.
const framingWithin = 0.01

// judgeFraming compares where held figures stand in the picture with the boxes
// that are true over the same frames.
func judgeFraming(t *trial) {
	for _, f := range t.sheet.Framing {
		i, ok := t.figureOf[f.Figure]
		if !ok {
			continue // a figure too many is counted as one
		}
		want, ok := t.framed(i, f.Start, f.End)
		if !ok {
			continue
		}
		got := [4]float64{f.Headroom, f.FootRoom, f.LeftRoom, f.RightRoom}
		for k, side := range [4]string{"headroom", "foot room", "left room", "right room"} {
			good := math.Abs(got[k]-want[k]) <= framingWithin
			t.score.Framing.count(good)
			if !good {
				t.fault("framing", fmt.Sprintf("%s %.3f in %d-%d", side, want[k], f.Start, f.End), fmt.Sprintf("%.3f", got[k]))
			}
		}
	}
}

// framed returns the room above, below, left and right of a true figure over
// some frames; false where it is not in all of them.
func (t *trial) framed(i, start, end int) (rooms [4]float64, ok bool) {
	var sides [4][]float64
	f := &t.truth.Figures[i]
	w, h := float64(t.size.X), float64(t.size.Y)
	for n := start; n <= end; n++ {
		b := trueBox(f, n)
		if area(b) <= 0 {
			return rooms, false
		}
		for k, v := range [4]float64{b.Y0 / h, 1 - b.Y1/h, b.X0 / w, 1 - b.X1/w} {
			sides[k] = append(sides[k], v)
		}
	}
	for k := range sides {
		rooms[k] = median(sides[k])
	}
	return rooms, true
}
