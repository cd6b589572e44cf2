package draw

import (
	"fmt"
	"image/color"
	"math"

	"holdfast/sheet"
)

// drawContacts marks where each contact starts and ends, and how far a slide
// leans. Slides come first, so that theirs are the best places for words.
func (l *layout) drawContacts(c *canvas) {
	for i := range l.contacts {
		if m := &l.contacts[i]; m.State == sheet.StateSlide {
			l.drawSlide(c, m)
		}
	}
	for i := range l.contacts {
		l.drawEnds(c, &l.contacts[i])
	}
}

func colorOf(state string) color.RGBA {
	if state == sheet.StateSlide {
		return slide
	}
	return plant
}

// drawEnds draws a bar and a number where the contact starts and ends.
func (l *layout) drawEnds(c *canvas, m *mark) {
	with := colorOf(m.State)
	bar := func(column float64, y int) {
		c.across(l.x(column-m.half), l.x(column+m.half), y, 2, with)
	}
	if l.has(m.start) {
		y := l.top(m.start)
		bar(m.x0, y-1)
		l.beside(c, fmt.Sprint(m.Start), m, m.x0, y, -8, with)
	}
	if l.has(m.end) {
		y := l.under(m.end)
		bar(m.x1, y-1)
		l.beside(c, fmt.Sprint(m.End), m, m.x1, y, 8, with)
	}
}

// beside writes a number near the end of a contact, off it by some pixels up or
// down or, where that is taken, at either side.
func (l *layout) beside(c *canvas, words string, m *mark, column float64, y, off int, with color.RGBA) {
	w := width(small, words)
	for _, at := range [][2]int{
		{l.x(column) - w/2, y + off},
		{l.x(column+m.half) + 4, y},
		{l.x(column-m.half) - 4 - w, y},
	} {
		if c.free(bounds(small, words, at[0], at[1])) {
			c.label(small, words, at[0], at[1], with)
			return
		}
	}
}

// drawSlide draws the upright that a plant would have kept to, and says by how
// much the contact left it.
func (l *layout) drawSlide(c *canvas, m *mark) {
	x, y0, y1 := l.x(m.x0), l.top(m.start), l.under(m.end)
	c.dashes(x, y0, y1, ink)
	if l.has(m.end) {
		c.across(x, l.x(m.x1), y1+1, 1, ink)
	}
	words := fmt.Sprintf("slides %.1f %% %s", 100*math.Abs(m.SlipShare), arrow(m.SlipShare))
	right, left := l.x(math.Max(m.x0, m.x1)+m.half), l.x(math.Min(m.x0, m.x1)-m.half)
	at := c.place(words, left, right, y0, y1)
	c.leader(words, at, left, right)
	c.label(textBold, words, at.X, at.Y, slide)
}

func arrow(share float64) string {
	if share < 0 {
		return "←"
	}
	return "→"
}
