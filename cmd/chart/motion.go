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

// Motion is the motion curve with the peak of each move, holds in pale behind it.
func Motion(s *sheet.Sheet) []*Picture {
	top := topOf(s.Curve.Motion)
	return timeline{
		kind: "motion", title: titled(s, "motion"),
		legend: "line: travel to each frame, figure heights · mark and number: frame of a move's peak · pale: holds · arrow: goes higher than is drawn, with its value",
		lines:  linesOf(s.Clip.FirstFrame, s.Clip.Last()), high: 37 * vg.Millimeter,
		fill: func(p *plot.Plot, line span) {
			p.Y.Min, p.Y.Max = 0, top*1.2
			p.Y.Label.Text = "heights a frame"
			p.Y.Tick.Marker = plot.ConstantTicks(valueTicks(top))
			p.Add(heldBands(s, line), curve(s, line, top), joins(s, line), peaks(s, line, top))
		},
	}.pictures()
}

// jumpShare is how far above the 99th of a hundred frames the curve may go before it is
// cut off there: jumps of a frame or two would press all the rest flat.
const jumpShare = 2

// topOf is the highest value that a curve is drawn to.
func topOf(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	if len(sorted) == 0 || sorted[len(sorted)-1] <= 0 {
		return 1e-3
	}
	most, usual := sorted[len(sorted)-1], sorted[(len(sorted)-1)*99/100]
	if usual > 0 && most > jumpShare*usual {
		return usual
	}
	return most
}

// valueTicks are marks on round values.
func valueTicks(top float64) (list []plot.Tick) {
	unit := math.Pow(10, math.Floor(math.Log10(top)))
	for _, m := range []float64{0.2, 0.5, 1, 2, 5} {
		if top/(m*unit) > 4 {
			continue
		}
		for k := 0.0; k*m*unit <= top*1.1; k++ {
			v := k * m * unit
			list = append(list, plot.Tick{Value: v, Label: strconv.FormatFloat(v, 'g', 3, 64)})
		}
		break
	}
	return list
}

func heldBands(s *sheet.Sheet, line span) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		for _, b := range s.Leading() {
			if from, to, ok := line.cut(b.Start, b.End); ok && b.Kind == sheet.KindHold {
				fill(c, alive, x(from), c.Min.Y, x(to), c.Max.Y)
			}
		}
	}
}

func curve(s *sheet.Sheet, line span, top float64) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		var points []vg.Point
		for f := line.start; f <= line.end; f++ {
			v := s.Curve.Motion[f-s.Clip.FirstFrame]
			points = append(points, vg.Point{X: x(float64(f)), Y: y(min(v, top))})
			if v > top {
				at := vg.Point{X: x(float64(f)), Y: y(top)}
				c.FillPolygon(ink, []vg.Point{{X: at.X - 2, Y: at.Y}, {X: at.X + 2, Y: at.Y}, {X: at.X, Y: at.Y + 4}})
				c.FillText(words(6.5, ink, draw.XLeft, draw.YCenter), vg.Point{X: at.X + 3, Y: at.Y + 2}, strconv.FormatFloat(v, 'g', 2, 64))
			}
		}
		c.StrokeLines(stroke(ink, 1), points)
	}
}

// peaks marks them at the upper edge, with their numbers where these have room.
func peaks(s *sheet.Sheet, line span, top float64) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		free := c.Min.X
		label := words(7, ink, draw.XCenter, draw.YTop)
		for _, b := range s.Leading() {
			if b.Peak == nil || *b.Peak < line.start || *b.Peak > line.end {
				continue
			}
			at := x(float64(*b.Peak))
			v := min(s.Curve.Motion[*b.Peak-s.Clip.FirstFrame], top)
			mark := c.Max.Y - 3.4*vg.Millimeter
			c.StrokeLine2(stroke(faint, 0.5, 1, 1.5), at, y(v), at, mark)
			c.FillPolygon(move, []vg.Point{{X: at - 2.6, Y: mark + 2}, {X: at + 2.6, Y: mark + 2}, {X: at, Y: mark - 3}})
			name := fmt.Sprint(*b.Peak)
			if half := label.Width(name) / 2; at-half >= free {
				c.FillText(label, vg.Point{X: at, Y: c.Max.Y}, name)
				free = at + half + 2
			}
		}
	}
}
