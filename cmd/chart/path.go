package chart

import (
	"fmt"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"holdfast/sheet"
)

// A path is a stretch of a point's way with the camera taken out.
type path struct {
	name  string
	start int
	at    []*[2]float64 // in the picture of the first frame; nil where it was not seen
}

// Paths has the path of each point with its spacing: a dot a frame, so that far apart is
// fast. The camera is taken out: a path lies in the picture of its first frame.
func Paths(s *sheet.Sheet, points []sheet.Point) (list []*Picture) {
	for _, p := range points {
		for from := p.Start; from <= p.End(); from += lineFrames {
			start, at := s.Arc(p, from, from+lineFrames-1, from)
			if way := (path{p.Name, start, at}); way.seen() > 1 {
				list = append(list, way.picture(s))
			}
		}
	}
	return paged(list)
}

func (p path) seen() (n int) {
	for _, at := range p.at {
		if at != nil {
			n++
		}
	}
	return n
}

func (p path) picture(s *sheet.Sheet) *Picture {
	end := p.start + len(p.at) - 1
	return &Picture{
		Kind:   "path",
		title:  fmt.Sprintf("%s: path of %s, frames %d–%d", sheet.Visible(s.Clip.Name), sheet.Visible(p.name), p.start, end),
		legend: fmt.Sprintf("a dot a frame, the camera taken out · ring: first frame · triangle: peak of a move · places in pixels of frame %d", p.start),
		high:   120 * vg.Millimeter,
		draw:   func(c draw.Canvas) { p.draw(c, s) },
	}
}

func (p path) draw(c draw.Canvas, s *sheet.Sheet) {
	plt := newPlot()
	plt.X.Label.Text, plt.Y.Label.Text = "across, pixels", "down, pixels"
	plt.Y.Scale = plot.InvertedScale{Normalizer: plot.LinearScale{}}
	p.frame(plt, float64((c.Max.X-c.Min.X)/(c.Max.Y-c.Min.Y)), leastShown*float64(s.Clip.Height))
	plt.Add(p.sketch(s))
	plt.Draw(c)
}

// leastShown is the least of the picture's height that is drawn: the tremble of a point
// that stands does not look like a way.
const leastShown = 0.15

// frame gives both axes one scale, with room around the path, and shows no less than
// so many pixels.
func (p path) frame(plt *plot.Plot, aspect, least float64) {
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, at := range p.at {
		if at != nil {
			x0, x1, y0, y1 = min(x0, at[0]), max(x1, at[0]), min(y0, at[1]), max(y1, at[1])
		}
	}
	const room = 0.12 // share of the extent
	high := max(y1-y0, (x1-x0)/aspect, least) * (1 + 2*room)
	wide := high * aspect
	plt.X.Min, plt.X.Max = (x0+x1-wide)/2, (x0+x1+wide)/2
	plt.Y.Min, plt.Y.Max = (y0+y1-high)/2, (y0+y1+high)/2
}

func (p path) sketch(s *sheet.Sheet) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		place := func(i int) vg.Point { return vg.Point{X: x(p.at[i][0]), Y: y(p.at[i][1])} }
		p.line(c, place)
		for i, at := range p.at {
			if at != nil {
				c.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 1.3, Shape: draw.CircleGlyph{}}, place(i))
			}
		}
		p.marks(c, s, place)
	}
}

// line joins what was seen on frames that follow each other.
func (p path) line(c draw.Canvas, place func(int) vg.Point) {
	var run []vg.Point
	for i := range p.at {
		if p.at[i] == nil {
			c.StrokeLines(stroke(move, 1), run)
			run = nil
			continue
		}
		run = append(run, place(i))
	}
	c.StrokeLines(stroke(move, 1), run)
}

// marks draws the first frame and the peaks, and numbers as many frames as have room.
func (p path) marks(c draw.Canvas, s *sheet.Sheet, place func(int) vg.Point) {
	l := labels{c: c}
	for i, at := range p.at {
		if at != nil {
			dot := place(i)
			l.taken = append(l.taken, vg.Rectangle{Min: vg.Point{X: dot.X - 1, Y: dot.Y - 1}, Max: vg.Point{X: dot.X + 1, Y: dot.Y + 1}})
		}
	}
	named := map[int]bool{}
	mark := func(i int, radius vg.Length, shape draw.GlyphDrawer) {
		if i >= 0 && i < len(p.at) && p.at[i] != nil {
			if shape != nil {
				c.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: radius, Shape: shape}, place(i))
			}
			if !named[i] {
				l.write(fmt.Sprint(p.start+i), place(i))
			}
			named[i] = true
		}
	}
	mark(0, 4, draw.RingGlyph{})
	for _, b := range s.Leading() {
		if b.Peak != nil {
			mark(*b.Peak-p.start, 3.6, draw.PyramidGlyph{})
		}
	}
	for _, b := range s.Leading() {
		mark(b.Start-p.start, 0, nil)
	}
	mark(len(p.at)-1, 0, nil)
	const often = 4 // frames
	for i := 0; i < len(p.at); i += often {
		mark(i, 0, nil)
	}
}

// labels are words that lie neither on each other nor on dots.
type labels struct {
	c     draw.Canvas
	taken []vg.Rectangle
}

// sides are where a label may stand beside its dot, the best first.
var sides = []struct {
	x, y vg.Length
	draw.TextStyle
}{
	{4, 0, words(7, ink, draw.XLeft, draw.YCenter)},
	{-4, 0, words(7, ink, draw.XRight, draw.YCenter)},
	{0, 4, words(7, ink, draw.XCenter, draw.YBottom)},
	{0, -4, words(7, ink, draw.XCenter, draw.YTop)},
}

// write writes a label where there is room beside a dot, or not at all.
func (l *labels) write(txt string, dot vg.Point) {
	for _, s := range sides {
		at := vg.Point{X: dot.X + s.x, Y: dot.Y + s.y}
		if r := s.Rectangle(txt).Add(at); l.free(r) {
			l.taken = append(l.taken, r)
			l.c.FillText(s.TextStyle, at, txt)
			return
		}
	}
}

func (l *labels) free(r vg.Rectangle) bool {
	for _, t := range l.taken {
		if r.Min.X < t.Max.X+1 && r.Max.X+1 > t.Min.X && r.Min.Y < t.Max.Y && r.Max.Y > t.Min.Y {
			return false
		}
	}
	return true
}
