package draw

import (
	"fmt"
	"image/color"
	"slices"

	"holdfast/sheet"
)

// laneWidth is how far brackets of one time stand apart, pixels.
const laneWidth = 10

// noteKinds are the notes that the strip can show the reason of.
var noteKinds = map[string]bool{
	"slide": true, "rooted-feet": true, "even-hops": true, "floaty-hop": true,
	"heavy-drop": true, "foot-pop": true, "step-rhythm": true,
}

// A remark is a range of rows with words at the right.
type remark struct {
	y0, y1 int
	words  string
	with   color.RGBA
	lane   int
}

// drawSide brackets flights and notes at the right.
func (l *layout) drawSide(c *canvas) {
	list := append(l.flightRemarks(), l.noteRemarks()...)
	slices.SortStableFunc(list, func(a, b remark) int { return a.y0 - b.y0 })
	lanes := spreadLanes(list)
	x := leftSide + l.width + 14
	for _, r := range list {
		c.bracket(x+r.lane*laneWidth, r.y0, r.y1, r.with)
	}
	for _, r := range list {
		c.writeDown(r.words, x+lanes*laneWidth+6, (r.y0+r.y1)/2, r.with)
	}
}

func (l *layout) flightRemarks() (list []remark) {
	for _, f := range l.flights {
		words := fmt.Sprintf("flight %s, rises %.0f %%", span(f.Start, f.End), 100*f.RiseShare)
		if l.several() {
			words = fmt.Sprintf("figure %d: %s", f.Figure, words)
		}
		list = append(list, l.remark(f.Start, f.End, words, aloft))
	}
	return list
}

// several reports whether contacts of more than one figure are on the page.
func (l *layout) several() bool {
	return slices.ContainsFunc(l.contacts, func(m mark) bool { return m.Figure != l.contacts[0].Figure })
}

func (l *layout) noteRemarks() (list []remark) {
	first, last := l.number(l.rows[0].Frame), l.number(l.rows[len(l.rows)-1].Frame)
	for _, n := range l.sheet.Notes {
		if noteKinds[n.Kind] && n.Start <= last && n.End >= first {
			words := fmt.Sprintf("note: %s %s", sheet.Visible(n.Kind), span(n.Start, n.End))
			list = append(list, l.remark(n.Start, n.End, words, note))
		}
	}
	return list
}

// remark is one on a range of frames as numbered in the sheet.
func (l *layout) remark(start, end int, words string, with color.RGBA) remark {
	return remark{y0: l.top(start - l.number(0)), y1: l.under(end - l.number(0)), words: words, with: with}
}

// spreadLanes puts remarks, in order of their starts, side by side where they
// share rows, and returns how many lanes that takes.
func spreadLanes(list []remark) int {
	var ends []int
	for i := range list {
		r := &list[i]
		for r.lane = 0; r.lane < len(ends) && ends[r.lane] > r.y0; r.lane++ {
		}
		if r.lane == len(ends) {
			ends = append(ends, 0)
		}
		ends[r.lane] = r.y1
	}
	return len(ends)
}

// writeDown writes small words at a height or, where others are, below them.
func (c *canvas) writeDown(words string, x, y int, with color.RGBA) {
	for ; y < c.Bounds().Max.Y; y += 4 {
		if c.free(bounds(small, words, x, y)) {
			c.write(small, words, x, y, with)
			return
		}
	}
}

func span(start, end int) string {
	if start == end {
		return fmt.Sprint(start)
	}
	return fmt.Sprintf("%d–%d", start, end)
}
