// Package chart draws what a sheet says for reports and for paper: the beat strip, the
// motion curve, the ground strip, the timing of moves and the paths of figures and
// parts. Numbers come in, PNG and SVG go out. Every chart is read without colour: by
// shape, by line and in words.
package chart

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	xfont "golang.org/x/image/font"
)

// A Picture is a page of a chart.
type Picture struct {
	Kind        string // which chart: "beats", "motion", ...
	Page, Pages int    // from 1
	title       string
	legend      string
	high        vg.Length // of what is drawn
	draw        func(c draw.Canvas)
}

const (
	// wide is what A4 and Letter have between margins of 15 mm.
	wide = 180 * vg.Millimeter
	// mostHigh is the most that the charts of a page may take: Letter has 249 mm, of
	// which title and legend want 20.
	mostHigh = 225 * vg.Millimeter
	titleRow = 8 * vg.Millimeter
	foot     = 7 * vg.Millimeter
	edge     = 3 * vg.Millimeter
	// dotsInch is the resolution of PNGs, dots an inch: 1500 pixels across.
	dotsInch = 212
)

// The colours are those of the page on white paper. None stands alone for a meaning.
var (
	white  = color.RGBA{255, 255, 255, 255}
	ink    = color.RGBA{30, 33, 38, 255}
	faint  = color.RGBA{93, 99, 107, 255}
	rule   = color.RGBA{217, 216, 211, 255}
	frozen = color.RGBA{91, 101, 112, 255}
	alive  = color.RGBA{221, 226, 230, 255}
	move   = color.RGBA{150, 132, 178, 255}
	plant  = color.RGBA{22, 112, 108, 255}
	slide  = color.RGBA{185, 60, 25, 255}
	air    = color.RGBA{78, 110, 158, 255}
)

// words is a style for text; size is in points.
func words(size vg.Length, c color.Color, x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{
		Color: c, Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: size},
		XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler,
	}
}

func bold(s text.Style) text.Style {
	s.Font.Weight = xfont.WeightBold
	return s
}

func stroke(c color.Color, width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: c, Width: width, Dashes: dashes}
}

// Suffix tells pages of one chart apart in file names.
func (p *Picture) Suffix() string {
	if p.Page == 1 {
		return ""
	}
	return fmt.Sprintf("-page%d", p.Page)
}

func (p *Picture) size() (w, h vg.Length) { return wide, p.high + titleRow + foot + 2*edge }

// PNG draws the page in pixels.
func (p *Picture) PNG() ([]byte, error) {
	w, h := p.size()
	c := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(dotsInch))
	p.onto(draw.New(c))
	var b bytes.Buffer
	if err := png.Encode(&b, c.Image()); err != nil {
		return nil, fmt.Errorf("chart of %s: %w", p.Kind, err)
	}
	return b.Bytes(), nil
}

// SVG draws the page in lines (W3C Scalable Vector Graphics 1.1). All text in it is
// escaped.
func (p *Picture) SVG() ([]byte, error) {
	w, h := p.size()
	c := vgsvg.New(w, h)
	p.onto(draw.New(c))
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return nil, fmt.Errorf("chart of %s: %w", p.Kind, err)
	}
	// Where the type is not installed another without serifs takes its place.
	return bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans;"), []byte("font-family:Liberation Sans,sans-serif;")), nil
}

func (p *Picture) onto(c draw.Canvas) {
	fill(c, white, c.Min.X, c.Min.Y, c.Max.X, c.Max.Y)
	c = draw.Crop(c, edge, -edge, edge, -edge)
	c.FillText(bold(words(11, ink, draw.XLeft, draw.YTop)), vg.Point{X: c.Min.X, Y: c.Max.Y}, p.title)
	if p.Pages > 1 {
		c.FillText(words(8.5, ink, draw.XRight, draw.YTop), c.Max, fmt.Sprintf("page %d of %d", p.Page, p.Pages))
	}
	c.FillText(words(7.5, faint, draw.XLeft, draw.YBottom), c.Min, p.legend)
	p.draw(draw.Crop(c, 0, 0, foot, -titleRow))
}

// paged numbers pages.
func paged(list []*Picture) []*Picture {
	for i, p := range list {
		p.Page, p.Pages = i+1, len(list)
	}
	return list
}

// fill fills a rectangle.
func fill(c draw.Canvas, with color.Color, x0, y0, x1, y1 vg.Length) {
	c.FillPolygon(with, []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
}

// outline draws the rim of a rectangle.
func outline(c draw.Canvas, l draw.LineStyle, x0, y0, x1, y1 vg.Length) {
	c.StrokeLines(l, []vg.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}, {X: x0, Y: y0}})
}

// fitting writes words where they have room.
func fitting(c draw.Canvas, s text.Style, at vg.Point, room vg.Length, txt string) bool {
	if s.Width(txt) > room {
		return false
	}
	c.FillText(s, at, txt)
	return true
}
