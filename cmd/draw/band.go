package draw

import (
	"fmt"
	"image"
	"math"

	"holdfast/motion/strip"
	"holdfast/sheet"
)

// drawBand draws the rows.
func (l *layout) drawBand(c *canvas) {
	for i, r := range l.rows {
		marks := l.standing(r.Frame)
		flies := l.flies(r.Frame)
		for px := range l.width {
			t, ok := l.pixel(r, marks, flies, l.left+(float64(px)+0.5)/l.scale)
			if !ok {
				continue
			}
			rgb := t.color()
			for y := l.tops[i]; y < l.tops[i]+rowHeight; y++ {
				c.SetRGBA(leftSide+px, y, rgb)
			}
		}
		if i > 0 && r.Frame-l.rows[i-1].Frame > l.strip.Every {
			l.drawBreak(c, i)
		}
	}
}

// drawBreak says which frames are left out before row i.
func (l *layout) drawBreak(c *canvas, i int) {
	y0, y1 := l.tops[i-1]+rowHeight, l.tops[i]
	words := fmt.Sprintf("frames %d–%d: nothing stands", l.number(l.rows[i-1].Frame+l.strip.Every), l.number(l.rows[i].Frame-1))
	c.write(small, words, leftSide+8, (y0+y1)/2, faint)
}

// standing are the contacts of a frame.
func (l *layout) standing(frame int) []*mark {
	var list []*mark
	for i := range l.contacts {
		if m := &l.contacts[i]; m.start <= frame && frame <= m.end {
			list = append(list, m)
		}
	}
	return list
}

func (l *layout) flies(frame int) bool {
	for _, f := range l.flights {
		if n := l.number(frame); f.Start <= n && n <= f.End {
			return true
		}
	}
	return false
}

// pixel is the tone of a row at a column; ok is false outside the picture.
func (l *layout) pixel(r strip.Row, marks []*mark, flies bool, column float64) (t tone, ok bool) {
	at := column - float64(r.X0)
	i := int(math.Floor(at))
	if i < 0 || i+1 >= len(r.Cells) {
		return tone{}, false
	}
	u := at - float64(i)
	of := func(c strip.Cell) tone { return cellTone(c, marks, flies, r.Frame, column) }
	return of(r.Cells[i]).mix(of(r.Cells[i+1]), u), true
}

func cellTone(c strip.Cell, marks []*mark, flies bool, frame int, column float64) tone {
	ground := bare(c)
	if c.Cover > 0 {
		ground = tone{bareLight, bareLight, bareLight - 2}
	}
	if flies {
		ground = ground.mix(toneOf(air), 0.6)
	}
	t := body(c)
	for _, m := range marks {
		if math.Abs(column-m.at(float64(frame))) > m.half {
			continue
		}
		t = t.mix(toneOf(plant), markShare)
		if m.State == sheet.StateSlide {
			t = body(c).mix(toneOf(slide), markShare)
		}
		break
	}
	return ground.mix(t, float64(c.Cover)/255)
}

// drawFrames writes the frame numbers at the left: every tenth, and a tick for
// every fifth.
func (l *layout) drawFrames(c *canvas) {
	for i, r := range l.rows {
		n := l.number(r.Frame)
		y := l.tops[i] + rowHeight/2
		first := i == 0 || r.Frame-l.rows[i-1].Frame > l.strip.Every
		switch {
		case n%(10*l.strip.Every) < l.strip.Every && n >= 0:
			words := fmt.Sprint(n)
			c.across(leftSide-8, leftSide, y, 1, ink)
			c.wash(image.Rect(leftSide, y, leftSide+l.width, y+1), ink, 0.10)
			c.write(small, words, leftSide-12-width(small, words), y, ink)
		case n%(5*l.strip.Every) < l.strip.Every && n >= 0:
			c.across(leftSide-5, leftSide, y, 1, faint)
		}
		if first {
			words := fmt.Sprint(n)
			if x := leftSide - 12 - width(small, words); c.free(bounds(small, words, x, y)) {
				c.write(small, words, x, y, faint)
			}
		}
	}
}
