// Package draw makes pictures of what a beat sheet says. Numbers and measured
// rows come in, PNG files go out; nothing is measured here.
package draw

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	"holdfast/motion/strip"
	"holdfast/sheet"
)

// pageRows is the most rows on one page, fifteen seconds at 24 a second: what
// fits on a screen in two or three turns of the wheel.
const pageRows = 360

// A Page is one picture of a shot's ground strip.
type Page struct {
	Of, Pages int // from 1; how many the shot has
	sheet     *sheet.Sheet
	strip     *strip.Strip
	rows      []strip.Row
}

// Ground returns the pages of a ground strip of a clip with the given sheet.
func Ground(s *sheet.Sheet, st *strip.Strip) []*Page {
	n := (len(st.Rows) + pageRows - 1) / pageRows
	var pages []*Page
	for i := range n {
		from, to := i*len(st.Rows)/n, (i+1)*len(st.Rows)/n
		pages = append(pages, &Page{i + 1, n, s, st, st.Rows[from:to]})
	}
	return pages
}

// Suffix tells the page from the others of its clip: "" where it is the only
// one, "-shot2", "-shot2-page3".
func (p *Page) Suffix() string {
	s := ""
	if len(p.sheet.Shots) > 1 {
		s = fmt.Sprintf("-shot%d", p.strip.Shot+1)
	}
	if p.Pages > 1 {
		s += fmt.Sprintf("-page%d", p.Of)
	}
	return s
}

// PNG draws the page.
func (p *Page) PNG() ([]byte, error) {
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(&b, p.image()); err != nil {
		return nil, fmt.Errorf("ground strip of shot %d: %w", p.strip.Shot+1, err)
	}
	return b.Bytes(), nil
}

func (p *Page) image() *image.RGBA {
	l := p.layout()
	c := newCanvas(l.size())
	l.drawBand(c)
	l.drawFrames(c)
	l.drawSide(c)
	l.drawContacts(c)
	l.drawHead(c)
	return c.RGBA
}

// number is what the sheet calls a frame that counts from the clip's first
// measured.
func (p *Page) number(frame int) int { return p.sheet.Clip.FirstFrame + frame }
