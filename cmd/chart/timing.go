package chart

import (
	"fmt"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"holdfast/sheet"
)

const (
	ladderHigh  = 15 * vg.Millimeter
	ladderRows  = int(mostHigh / ladderHigh)
	ladderCols  = 2
	ladderSpace = 10 * vg.Millimeter // between columns
)

// A ladder is a move with its timing chart.
type ladder struct {
	beat  sheet.Beat
	chart sheet.TimingChart
}

// Timing has the timing chart of each move: a line between its two poses with a tick
// where each drawing lies.
func Timing(s *sheet.Sheet) (list []*Picture) {
	var all []ladder
	for _, b := range s.Beats {
		if c, ok := b.TimingChart(); ok {
			all = append(all, ladder{b, c})
		}
	}
	const onPage = ladderRows * ladderCols
	for from := 0; from < len(all); from += onPage {
		part := all[from:min(from+onPage, len(all))]
		rows := (len(part) + ladderCols - 1) / ladderCols
		list = append(list, &Picture{
			Kind: "timing", title: titled(s, "timing of moves"),
			legend: "from pose to pose, a tick a drawing where it lies on the way · heavy: the peak · numbers: frames", high: ladderHigh * vg.Length(rows),
			draw: func(c draw.Canvas) { drawLadders(c, part, rows) },
		})
	}
	return paged(list)
}

// drawLadders goes down one column and then the next.
func drawLadders(c draw.Canvas, list []ladder, rows int) {
	wide := (c.Max.X - c.Min.X - (ladderCols-1)*ladderSpace) / ladderCols
	for i, l := range list {
		left := c.Min.X + vg.Length(i/rows)*(wide+ladderSpace)
		top := c.Max.Y - vg.Length(i%rows)*ladderHigh
		p := newPlot()
		p.HideAxes()
		p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = -0.02, 1.02, 0, 1
		p.Add(l.sketch())
		p.Draw(draw.Canvas{Canvas: c.Canvas, Rectangle: vg.Rectangle{
			Min: vg.Point{X: left, Y: top - ladderHigh}, Max: vg.Point{X: left + wide, Y: top},
		}})
	}
}

func (l ladder) sketch() sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		b := l.beat
		name := fmt.Sprintf("beat %d, %d–%d", b.ID, b.Start, b.End)
		if b.Figure > 0 {
			name += fmt.Sprintf(", figure %d", b.Figure)
		}
		head := words(7, ink, draw.XLeft, draw.YTop)
		corner := vg.Point{X: x(0), Y: y(1)}
		c.FillText(bold(head), corner, name)
		corner.X += bold(head).Width(name) + 6
		if room := x(1) - corner.X; !fitting(c, head, corner, room, b.SpacingWords()) {
			fitting(c, words(6, ink, draw.XLeft, draw.YTop), corner, room, b.SpacingWords())
		}
		base := y(0.48)
		c.StrokeLine2(stroke(ink, 0.8), x(0), base, x(1), base)
		c.StrokeLine2(stroke(ink, 1.2), x(0), base-7, x(0), base+7)
		l.ticks(c, x, base)
	}
}

// ticks draws the drawings, and their numbers where these have room: those of both poses
// and the peak before others.
func (l ladder) ticks(c draw.Canvas, x func(float64) vg.Length, base vg.Length) {
	number := words(6.5, ink, draw.XCenter, draw.YTop)
	var taken [][2]vg.Length
	write := func(frame int, at vg.Length) {
		txt := fmt.Sprint(frame)
		half := number.Width(txt)/2 + 1
		for _, t := range taken {
			if at-half < t[1] && at+half > t[0] {
				return
			}
		}
		taken = append(taken, [2]vg.Length{at - half, at + half})
		c.FillText(number, vg.Point{X: at, Y: base - 8.5}, txt)
	}
	write(l.chart.From, x(0))
	last := l.chart.Ticks[len(l.chart.Ticks)-1]
	write(last.Frame, x(1))
	for _, first := range []bool{true, false} {
		for _, t := range l.chart.Ticks {
			at, peak := x(t.Share), l.beat.Peak != nil && t.Frame == *l.beat.Peak
			if peak == first {
				write(t.Frame, at)
			}
			high, width := vg.Length(4), vg.Length(0.7)
			switch {
			case peak:
				high, width = 6, 2
			case t == last:
				high, width = 7, 1.2
			}
			c.StrokeLine2(stroke(ink, width), at, base-high, at, base+high)
		}
	}
}
