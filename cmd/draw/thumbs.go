package draw

import (
	"bytes"
	"fmt"
	"image"
	"image/png"

	xdraw "golang.org/x/image/draw"
)

// A Thumb is one frame on a page of thumbs, with what there is to say of it.
type Thumb struct {
	Picture image.Image
	Number  int      // of its frame
	Words   []string // a line each
}

// Measures of a page of thumbs, pixels.
const (
	thumbWidth               = 240
	thumbGap                 = 18
	thumbMargin              = 30
	thumbLine                = 17
	thumbTop                 = 78
	thumbsAcross, thumbsDown = 5, 10

	// ThumbsOnPage is how many thumbs a page holds: what prints on one sheet of
	// paper and is still read.
	ThumbsOnPage = thumbsAcross * thumbsDown
)

// Shrink makes a thumb of a picture.
func Shrink(m image.Image) image.Image {
	size := m.Bounds().Size()
	high := max(1, (thumbWidth*size.Y+size.X/2)/size.X)
	small := image.NewRGBA(image.Rect(0, 0, thumbWidth, high))
	xdraw.CatmullRom.Scale(small, small.Rect, m, m.Bounds(), xdraw.Src, nil)
	return small
}

// Thumbs draws a page of thumbs, at most ThumbsOnPage, under a title.
func Thumbs(title, below string, thumbs []Thumb) ([]byte, error) {
	high, lines := 0, 0
	for _, t := range thumbs {
		high, lines = max(high, t.Picture.Bounds().Dy()), max(lines, len(t.Words))
	}
	cell := image.Pt(thumbWidth+thumbGap, high+(lines+1)*thumbLine+thumbGap+6)
	across := min(max(len(thumbs), 3), thumbsAcross)
	down := (len(thumbs) + across - 1) / across
	c := newCanvas(image.Pt(2*thumbMargin+across*cell.X-thumbGap, thumbTop+down*cell.Y+thumbMargin-thumbGap))
	c.write(head, fitted(head, title, c.Rect.Dx()-2*thumbMargin), thumbMargin, 34, ink)
	c.write(text, fitted(text, below, c.Rect.Dx()-2*thumbMargin), thumbMargin, 56, faint)
	for i, t := range thumbs {
		at := image.Pt(thumbMargin+i%across*cell.X, thumbTop+i/across*cell.Y)
		c.thumb(t, at)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, c.RGBA); err != nil {
		return nil, fmt.Errorf("page of stills: %w", err)
	}
	return b.Bytes(), nil
}

// thumb draws one thumb with its number and words under it.
func (c *canvas) thumb(t Thumb, at image.Point) {
	size := t.Picture.Bounds().Size()
	xdraw.Copy(c, at, t.Picture, t.Picture.Bounds(), xdraw.Src, nil)
	y := at.Y + size.Y + 13
	c.write(textBold, FrameNumber(t.Number), at.X, y, ink)
	for _, w := range t.Words {
		y += thumbLine
		c.write(text, fitted(text, w, thumbWidth), at.X, y, ink)
	}
}
