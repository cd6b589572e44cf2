package chart

import (
	"fmt"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"holdfast/sheet"
)

// lineFrames is the most frames that a line of a chart has: at seven tenths of a
// millimetre a frame a beat of six is still told apart.
const lineFrames = 240

// A span is the frames of one line of a chart, as music has lines.
type span struct {
	start, end int
	long       int // frames that a whole line has, so that all are of one scale
}

// linesOf breaks frames into lines of about one length.
func linesOf(first, last int) (list []span) {
	frames := last - first + 1
	lines := (frames + lineFrames - 1) / lineFrames
	long := (frames + lines - 1) / lines
	for start := first; start <= last; start += long {
		list = append(list, span{start, min(start+long-1, last), long})
	}
	return list
}

// A timeline is a chart with frames across, line below line.
type timeline struct {
	kind, title, legend string
	lines               []span
	high                vg.Length // of a line
	fill                func(p *plot.Plot, line span)
}

// pictures lays a timeline out on pages.
func (t timeline) pictures() (list []*Picture) {
	perPage := max(1, int(mostHigh/t.high))
	for from := 0; from < len(t.lines); from += perPage {
		lines := t.lines[from:min(from+perPage, len(t.lines))]
		list = append(list, &Picture{
			Kind: t.kind, title: t.title, legend: t.legend, high: t.high * vg.Length(len(lines)),
			draw: func(c draw.Canvas) { t.draw(c, lines) },
		})
	}
	return paged(list)
}

func (t timeline) draw(c draw.Canvas, lines []span) {
	for i, line := range lines {
		p := newPlot()
		p.X.Min, p.X.Max = float64(line.start)-0.5, float64(line.start+line.long)-0.5
		p.X.Tick.Marker = frameTicks(line.end)
		t.fill(p, line)
		top := c.Max.Y - t.high*vg.Length(i)
		p.Draw(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
			Min: vg.Point{X: c.Min.X, Y: top - t.high + 2*vg.Millimeter}, Max: vg.Point{X: c.Max.X, Y: top},
		}})
	}
}

// newPlot is a plot in this package's type.
func newPlot() *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	for _, a := range []*plot.Axis{&p.X, &p.Y} {
		a.LineStyle = stroke(faint, 0.5)
		a.Tick.LineStyle = stroke(faint, 0.5)
		a.Tick.Label.Font = words(7.5, ink, 0, 0).Font
		a.Tick.Label.Color = ink
		a.Label.TextStyle.Font = words(7.5, ink, 0, 0).Font
		a.Label.TextStyle.Color = faint
		a.Padding = 0
	}
	return p
}

// frameTicks are marks on whole frames up to the last, some ten with numbers.
func frameTicks(last int) plot.Ticker {
	return plot.TickerFunc(func(lo, hi float64) (list []plot.Tick) {
		step := roundStep(hi - lo)
		first := int(lo + 0.5)
		for n := first; n <= min(int(hi-0.5), last); n++ {
			if mod(n, step) == 0 || n == first {
				label := strconv.Itoa(n)
				if n == first && mod(-n, step) > 0 && mod(-n, step) <= step/2 {
					label = "" // the next number stands too near
				}
				list = append(list, plot.Tick{Value: float64(n), Label: label})
			} else if hi-lo <= lineFrames/2 {
				list = append(list, plot.Tick{Value: float64(n)})
			}
		}
		return list
	})
}

// mostNumbers is how many numbers have room across a page.
const mostNumbers = 14

// roundStep is the least of 1, 2, 5, 10, 20, 50 and so on that goes into an extent no
// more often than numbers have room.
func roundStep(extent float64) int {
	for tens := 1; ; tens *= 10 {
		for _, s := range []int{1, 2, 5} {
			if extent/float64(s*tens) <= mostNumbers {
				return s * tens
			}
		}
	}
}

// mod is never below 0.
func mod(a, b int) int { return (a%b + b) % b }

// A sketch draws on a plot; frame and value give places.
type sketch func(c draw.Canvas, x, y func(float64) vg.Length)

// Plot implements plot.Plotter.
func (s sketch) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	s(c, x, y)
}

// joins are broken lines where shots begin within a line.
func joins(s *sheet.Sheet, line span) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		for _, t := range s.Shots {
			if t.Start > line.start && t.Start <= line.end {
				at := x(float64(t.Start) - 0.5)
				c.StrokeLine2(stroke(ink, 0.8, 2, 2), at, c.Min.Y, at, c.Max.Y)
			}
		}
	}
}

// titled names a chart and its clip.
func titled(s *sheet.Sheet, what string) string {
	return fmt.Sprintf("%s: %s, frames %d–%d, %s fps", sheet.Visible(s.Clip.Name), what, s.Clip.FirstFrame, s.Clip.Last(), s.Clip.FPS.Words())
}

// cut is the part of frames on a line; ok is false where none is.
func (l span) cut(start, end int) (from, to float64, ok bool) {
	start, end = max(start, l.start), min(end, l.end)
	return float64(start) - 0.5, float64(end) + 0.5, start <= end
}
