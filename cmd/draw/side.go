package draw

import (
	"fmt"
	"image/color"

	"holdfast/sheet"
)

// noteKinds are the notes that the strip can show the reason of.
var noteKinds = map[string]bool{
	"slide": true, "rooted-feet": true, "even-hops": true, "floaty-hop": true,
	"heavy-drop": true, "foot-pop": true, "step-rhythm": true,
}

// drawSide brackets flights and notes at the right.
func (l *layout) drawSide(c *canvas) {
	x := leftSide + l.width + 14
	for _, f := range l.flights {
		words := fmt.Sprintf("flight %s, rises %.0f %%", span(f.Start, f.End), 100*f.RiseShare)
		if len(l.sheet.Figures) > 1 {
			words = fmt.Sprintf("figure %d: %s", f.Figure, words)
		}
		l.drawSpan(c, x, f.Start, f.End, words, aloft)
	}
	for _, n := range l.sheet.Notes {
		if noteKinds[n.Kind] && n.Start <= l.number(l.rows[len(l.rows)-1].Frame) && n.End >= l.number(l.rows[0].Frame) {
			l.drawSpan(c, x+14, n.Start, n.End, "note: "+sheet.Visible(n.Kind), note)
		}
	}
}

// drawSpan brackets a range of frames, as numbered in the sheet, and says what
// it is.
func (l *layout) drawSpan(c *canvas, x, start, end int, words string, with color.RGBA) {
	y0, y1 := l.top(start-l.number(0)), l.under(end-l.number(0))
	c.bracket(x, y0, y1, with)
	right := leftSide + l.width + 36
	for y := (y0 + y1) / 2; y < c.Bounds().Max.Y; y += 4 {
		if c.free(bounds(small, words, right, y)) {
			c.write(small, words, right, y, with)
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
