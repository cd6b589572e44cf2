package chart

import (
	"fmt"
	"math"
	"slices"
	"strconv"

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
// fast. The camera is taken out: a path lies in the picture of its first frame. Both axes have one
// scale.
func Paths(s *sheet.Sheet, points []sheet.Point) []*Picture {
	var ways []path
	for _, p := range points {
		for from := p.Start; from <= p.End(); from += lineFrames {
			start, at := s.Arc(p, from, from+lineFrames-1, from)
			if way := (path{p.Name, start, at}); way.seen() > 1 {
				ways = append(ways, way)
			}
		}
	}
	return pathPages(s, ways)
}

func (p path) seen() (n int) {
	for _, at := range p.at {
		if at != nil {
			n++
		}
	}
	return n
}

// pathPages lays paths below each other, each as high as it asks for.
func pathPages(s *sheet.Sheet, ways []path) (list []*Picture) {
	for len(ways) > 0 {
		n, high := 0, vg.Length(0)
		for n < len(ways) && (n == 0 || high+ways[n].high(s) <= mostHigh) {
			high += ways[n].high(s)
			n++
		}
		page := ways[:n]
		ways = ways[n:]
		list = append(list, &Picture{
			Kind:   "path",
			title:  titled(s, "paths"),
			legend: "a dot a frame, the camera taken out · ring: first frame · triangle: peak of a move · places in pixels of the first frame",
			high:   high,
			draw:   func(c draw.Canvas) { drawPaths(c, s, page) },
		})
	}
	return paged(list)
}

func drawPaths(c draw.Canvas, s *sheet.Sheet, ways []path) {
	top := c.Max.Y
	for _, p := range ways {
		below := top - p.high(s)
		p.draw(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
			Min: vg.Point{X: c.Min.X, Y: below}, Max: vg.Point{X: c.Max.X, Y: top - pathSpace},
		}}, s)
		top = below
	}
}

const (
	pathHead  = 6 * vg.Millimeter   // for the name of a path
	pathSpace = 3 * vg.Millimeter   // between paths
	pathAxes  = 11 * vg.Millimeter  // for the numbers below a path
	pathWide  = 155 * vg.Millimeter // for the path itself, with no room around it
	pathLeast = 26 * vg.Millimeter  // enough for numbers above and below a level path
	pathMost  = 105 * vg.Millimeter // two such to a page
)

// high is what a path takes of a page: what its shape asks for at full width.
func (p path) high(s *sheet.Sheet) vg.Length {
	x0, x1, y0, y1 := p.extent()
	least := leastShown * float64(s.Clip.Height)
	natural := pathWide * vg.Length(max(y1-y0, least)/max(x1-x0, least))
	if x1-x0 < least && y1-y0 < least {
		natural = pathLeast // it stands
	}
	return min(max(natural, pathLeast)+pathHead+pathAxes+pathSpace, pathMost)
}

func (p path) draw(c draw.Canvas, s *sheet.Sheet) {
	name := fmt.Sprintf("%s, frames %d–%d", sheet.Visible(p.name), p.start, p.start+len(p.at)-1)
	c.FillText(bold(words(8, ink, draw.XLeft, draw.YTop)), vg.Point{X: c.Min.X, Y: c.Max.Y}, name)
	c = draw.Crop(c, 0, 0, 0, -pathHead)
	plt := newPlot()
	plt.X.Label.Text, plt.Y.Label.Text = "across, pixels", "down, pixels"
	plt.Y.Scale = plot.InvertedScale{Normalizer: plot.LinearScale{}}
	least := leastShown * float64(s.Clip.Height)
	for area, k := c, 0; k < 3; k++ { // what the axes leave depends on their numbers
		p.frame(plt, area, least)
		area = plt.DataCanvas(c)
	}
	plt.Add(p.sketch(s))
	plt.Draw(c)
}

// leastShown is the least of the picture's height that is drawn: the tremble of a point
// that stands does not look like a way.
const leastShown = 0.15

// extent is how far a path reaches.
func (p path) extent() (x0, x1, y0, y1 float64) {
	x0, x1, y0, y1 = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, at := range p.at {
		if at != nil {
			x0, x1, y0, y1 = min(x0, at[0]), max(x1, at[0]), min(y0, at[1]), max(y1, at[1])
		}
	}
	return x0, x1, y0, y1
}

// frame gives both axes one scale on a canvas, with room around the path, and shows no
// less than so many pixels.
func (p path) frame(plt *plot.Plot, c draw.Canvas, least float64) {
	aspect := float64((c.Max.X - c.Min.X) / (c.Max.Y - c.Min.Y))
	x0, x1, y0, y1 := p.extent()
	const room = 0.12 // share of the extent
	high := max(y1-y0, (x1-x0)/aspect, least) * (1 + 2*room)
	wide := high * aspect
	plt.X.Min, plt.X.Max = (x0+x1-wide)/2, (x0+x1+wide)/2
	plt.Y.Min, plt.Y.Max = (y0+y1-high)/2, (y0+y1+high)/2
	step := roundStep(wide)        // on both axes, as is the scale, but that each has two numbers
	const pair = mostNumbers / 5.0 // a step is up to 2.5 times what it is asked for
	plt.X.Tick.Marker, plt.Y.Tick.Marker = pixelTicks(step), pixelTicks(min(step, roundStep(high*pair)))
}

// pixelTicks are marks with numbers every so many pixels.
func pixelTicks(step int) plot.Ticker {
	return plot.TickerFunc(func(lo, hi float64) (list []plot.Tick) {
		for n := int(math.Ceil(lo/float64(step))) * step; float64(n) <= hi; n += step {
			list = append(list, plot.Tick{Value: float64(n), Label: strconv.Itoa(n)})
		}
		return list
	})
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
		if at == nil {
			continue
		}
		l.dot(place(i))
		if i > 0 && p.at[i-1] != nil {
			l.line(place(i-1), place(i))
		}
	}
	named := map[int]bool{}
	mark := func(i int, radius vg.Length, shape draw.GlyphDrawer) {
		if i >= 0 && i < len(p.at) && p.at[i] != nil {
			if shape != nil {
				c.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: radius, Shape: shape}, place(i))
			}
			if !named[i] {
				l.write(fmt.Sprint(p.start+i), place(i), shape != nil)
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

// labels are words that lie neither on each other nor on dots, and on lines only where
// nothing else is free.
type labels struct {
	c            draw.Canvas
	taken, lines []vg.Rectangle
}

// dot keeps labels off a dot.
func (l *labels) dot(at vg.Point) { l.taken = append(l.taken, around(at)) }

// line keeps labels off a straight line, by spots on it that lie nearer than a label is
// high.
func (l *labels) line(from, to vg.Point) {
	const apart = 5 // points
	n := 1 + int(math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y))/apart)
	for k := range n {
		share := vg.Length(k) / vg.Length(n)
		l.lines = append(l.lines, around(vg.Point{X: from.X + share*(to.X-from.X), Y: from.Y + share*(to.Y-from.Y)}))
	}
}

func around(p vg.Point) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: p.X - 1, Y: p.Y - 1}, Max: vg.Point{X: p.X + 1, Y: p.Y + 1}}
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

// write writes a label where there is room beside a dot; one that need not be is left out
// rather than written over a line.
func (l *labels) write(txt string, dot vg.Point, need bool) {
	if l.writeOff(txt, dot, l.taken, l.lines) || !need {
		return
	}
	l.writeOff(txt, dot, l.taken)
}

// writeOff writes a label off what is in the way, and reports whether there was room.
func (l *labels) writeOff(txt string, dot vg.Point, inTheWay ...[]vg.Rectangle) bool {
	for _, s := range sides {
		at := vg.Point{X: dot.X + s.x, Y: dot.Y + s.y}
		if r := s.Rectangle(txt).Add(at); free(r, inTheWay) {
			l.taken = append(l.taken, r)
			l.c.FillText(s.TextStyle, at, txt)
			return true
		}
	}
	return false
}

func free(r vg.Rectangle, inTheWay [][]vg.Rectangle) bool {
	for _, t := range slices.Concat(inTheWay...) {
		if r.Min.X < t.Max.X+1 && r.Max.X+1 > t.Min.X && r.Min.Y < t.Max.Y && r.Max.Y > t.Min.Y {
			return false
		}
	}
	return true
}
