package draw

import (
	"image"
	"image/color"
	"image/draw"

	"golang.org/x/image/math/fixed"
)

// A canvas is a picture with a pen.
type canvas struct {
	*image.RGBA
	taken []image.Rectangle // by text
}

func newCanvas(size image.Point) *canvas {
	c := &canvas{RGBA: image.NewRGBA(image.Rectangle{Max: size})}
	c.fill(c.Bounds(), paper)
	return c
}

func (c *canvas) fill(r image.Rectangle, with color.RGBA) {
	draw.Draw(c, r, image.NewUniform(with), image.Point{}, draw.Src)
}

// wash lays a colour over a rectangle so that what is there shows through.
func (c *canvas) wash(r image.Rectangle, with color.RGBA, share float64) {
	over := color.NRGBA{with.R, with.G, with.B, uint8(255*share + 0.5)}
	draw.Draw(c, r, image.NewUniform(over), image.Point{}, draw.Over)
}

func (c *canvas) across(x0, x1, y, thick int, with color.RGBA) {
	c.fill(image.Rect(min(x0, x1), y, max(x0, x1), y+thick), with)
}

func (c *canvas) down(x, y0, y1, thick int, with color.RGBA) {
	c.fill(image.Rect(x, y0, x+thick, y1), with)
}

// dashes is a line down that is there for 6 pixels in 10.
func (c *canvas) dashes(x, y0, y1 int, with color.RGBA) {
	for y := y0; y < y1; y += 10 {
		c.down(x, y, min(y+6, y1), 1, with)
	}
}

// bracket opens to the left.
func (c *canvas) bracket(x, y0, y1 int, with color.RGBA) {
	c.down(x, y0, y1, 2, with)
	c.across(x-5, x, y0, 2, with)
	c.across(x-5, x, y1-2, 2, with)
}

// The type: Go's own.
const (
	smallSize = 11.5 // pixels
	textSize  = 13.0
	headSize  = 17.0
)

var (
	small     = style{size: smallSize}
	text      = style{size: textSize}
	smallBold = style{true, smallSize}
	textBold  = style{true, textSize}
	head      = style{true, headSize}
)

// ownFaces are the type of all canvases.
var ownFaces faces

func width(s style, words string) int { return ownFaces.width(s, words) }

func fitted(s style, words string, room int) string { return ownFaces.fitted(s, words, room) }

// bounds is what words take whose line's middle is at y and whose left end is
// at x.
func bounds(s style, words string, x, y int) image.Rectangle {
	half := int(s.size*0.6) + 1
	return image.Rect(x-2, y-half, x+width(s, words)+2, y+half)
}

// write puts words to the right of x, their middle at height y.
func (c *canvas) write(s style, words string, x, y int, with color.RGBA) {
	c.taken = append(c.taken, bounds(s, words, x, y))
	ownFaces.write(c, s, words, fixed.P(x, y+int(s.size*0.35+0.5)), with)
}

// label is write on a patch of paper.
func (c *canvas) label(s style, words string, x, y int, with color.RGBA) {
	c.wash(bounds(s, words, x, y), paper, 0.82)
	c.write(s, words, x, y, with)
}

// free reports whether no text is there yet.
func (c *canvas) free(r image.Rectangle) bool {
	for _, t := range c.taken {
		if t.Overlaps(r) {
			return false
		}
	}
	return r.In(c.Bounds())
}
