package chart

import (
	"fmt"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"holdfast/sheet"
)

// Beats is the beat strip: holds as bars, moves as hills with their tops at their peaks,
// a row for the picture and one for each figure that has beats of its own.
func Beats(s *sheet.Sheet) []*Picture {
	tracks := tracksOf(s)
	return timeline{
		kind: "beats", title: titled(s, "beats"),
		legend: "dark: frozen hold · pale with a dotted rim: moving hold · hill: move, its top at the peak, as high as it is big · numbers: frames",
		lines:  linesOf(s.Clip.FirstFrame, s.Clip.Last()), high: vg.Length(9+13*len(tracks)) * vg.Millimeter,
		fill: func(p *plot.Plot, line span) {
			p.Y.Min, p.Y.Max = 0, float64(len(tracks))
			p.Y.Tick.Marker = plot.ConstantTicks(names(tracks))
			p.Y.LineStyle.Width, p.Y.Tick.Length = 0, 0
			for k, figure := range tracks {
				p.Add(strip(s, figure, float64(len(tracks)-1-k), line))
			}
			p.Add(joins(s, line))
		},
	}.pictures()
}

// tracksOf are the figures that have beats, 0 for the picture as a whole.
func tracksOf(s *sheet.Sheet) (list []int) {
	for _, b := range s.Beats {
		if !slices.Contains(list, b.Figure) {
			list = append(list, b.Figure)
		}
	}
	slices.Sort(list)
	return list
}

func names(tracks []int) (list []plot.Tick) {
	if len(tracks) < 2 {
		return nil
	}
	for k, figure := range tracks {
		name := fmt.Sprintf("figure %d", figure)
		if figure == 0 {
			name = "all"
		}
		list = append(list, plot.Tick{Value: float64(len(tracks)-1-k) + 0.5, Label: name})
	}
	return list
}

const (
	// barShare is how high a hold is, of its row; hillLeast is the least of a move.
	barShare, hillLeast = 0.55, 0.2
)

// strip draws the beats of a figure in a row.
func strip(s *sheet.Sheet, figure int, row float64, line span) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		for _, b := range s.Beats {
			from, to, ok := line.cut(b.Start, b.End)
			if b.Figure != figure || !ok {
				continue
			}
			x0, x1, base := x(from), x(to), y(row)
			label := words(7.5, ink, draw.XCenter, draw.YBottom)
			at := vg.Point{X: (x0 + x1) / 2, Y: base + vg.Millimeter}
			switch b.Hold {
			case sheet.HoldFrozen:
				fill(c, frozen, x0+0.3, base, x1-0.3, y(row+barShare))
				label.Color = white
			case sheet.HoldMoving:
				fill(c, alive, x0+0.3, base, x1-0.3, y(row+barShare))
				outline(c, stroke(frozen, 0.8, 1, 1.5), x0+0.6, base+0.4, x1-0.6, y(row+barShare))
			default:
				at = hill(c, b, line, x, func(share float64) vg.Length { return y(row + share) })
			}
			name := fmt.Sprint(b.Frames)
			half := label.Width(name) / 2
			at.X = max(x0+half, min(at.X, x1-half))
			fitting(c, label, at, x1-x0, name)
		}
	}
}

// hill draws a move and says where its length stands.
func hill(c draw.Canvas, b sheet.Beat, line span, x, y func(float64) vg.Length) vg.Point {
	size, peak := 0.0, (b.Start+b.End)/2
	if b.Size != nil {
		size = *b.Size
	}
	if b.Peak != nil {
		peak = *b.Peak
	}
	top := hillLeast + (0.75-hillLeast)*size
	height := func(f float64) vg.Length { // of the hill at a place
		if f <= float64(peak) {
			return y(top * (f - float64(b.Start) + 0.5) / (float64(peak-b.Start) + 0.5))
		}
		return y(top * (float64(b.End) + 0.5 - f) / (float64(b.End-peak) + 0.5))
	}
	from, to, _ := line.cut(b.Start, b.End)
	outline := []vg.Point{{X: x(from), Y: y(0)}, {X: x(from), Y: height(from)}}
	if peak >= line.start && peak <= line.end {
		outline = append(outline, vg.Point{X: x(float64(peak)), Y: y(top)})
	}
	outline = append(outline, vg.Point{X: x(to), Y: height(to)}, vg.Point{X: x(to), Y: y(0)})
	c.FillPolygon(move, outline)
	c.StrokeLines(stroke(ink, 0.6), outline)
	middle := (from + to) / 2
	if from < float64(peak) && float64(peak) < to {
		middle = float64(peak)
	}
	return vg.Point{X: x(middle), Y: height(middle) + 0.8*vg.Millimeter}
}
