package chart

import (
	"fmt"
	"image"
	"math"

	xdraw "golang.org/x/image/draw"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"holdfast/sheet"
)

// A Strip is the ground strip of a shot, one column of pixels a frame, the left of the
// picture above.
type Strip struct {
	Start, End int // frames
	Picture    image.Image
}

// Ground is the ground strip over the frames, and below it what stands, slides and flies.
// There is none where nothing stands.
func Ground(s *sheet.Sheet, strips []Strip) []*Picture {
	if len(s.Contacts)+len(s.Flights) == 0 {
		return nil
	}
	runs, lanes := lanesOf(s)
	high := 30.0 + 5*float64(lanes)
	return timeline{
		kind: "ground", title: titled(s, "ground"),
		legend: "strip: ground at the feet, left of the picture above · full bar: plant · broken rim with its slip: slide · arch with its frames: in the air",
		lines:  linesOf(s.Clip.FirstFrame, s.Clip.Last()), high: vg.Length(high) * vg.Millimeter,
		fill: func(p *plot.Plot, line span) {
			p.Y.Min, p.Y.Max = 0, float64(lanes)+stripLanes
			p.Y.Tick.Marker = plot.ConstantTicks(nil)
			p.Y.LineStyle.Width = 0
			for _, st := range strips {
				p.Add(band(st, line, float64(lanes)))
			}
			p.Add(standing(runs, lanes, line), joins(s, line))
		},
	}.pictures()
}

// stripLanes is how high the strip is, in lanes.
const stripLanes = 4

// A run is something at the feet that lasts.
type run struct {
	start, end, lane int
	kind, label      string
	from, to         int // of a slide: the frames between which it goes; it stands before and after
}

const flight = "flight"

// lanesOf puts what overlaps below each other.
func lanesOf(s *sheet.Sheet) (list []run, lanes int) {
	var ends []int
	place := func(r run) {
		for r.lane < len(ends) && ends[r.lane] >= r.start {
			r.lane++
		}
		if r.lane == len(ends) {
			ends = append(ends, 0)
		}
		ends[r.lane] = r.end
		list = append(list, r)
	}
	contacts, flights := s.Contacts, s.Flights
	for len(contacts)+len(flights) > 0 {
		if len(flights) == 0 || len(contacts) > 0 && contacts[0].Start <= flights[0].Start {
			c := contacts[0]
			contacts = contacts[1:]
			r := run{start: c.Start, end: c.End, kind: c.State}
			if c.State == sheet.StateSlide {
				r.from, r.to = c.Slide()
				r.label = fmt.Sprintf("%.0f %%", 100*math.Abs(c.SlipShare))
			}
			place(r)
			continue
		}
		f := flights[0]
		flights = flights[1:]
		place(run{start: f.Start, end: f.End, kind: flight, label: fmt.Sprint(f.Frames)})
	}
	return list, len(ends)
}

func standing(runs []run, lanes int, line span) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		for _, r := range runs {
			row := float64(lanes - 1 - r.lane)
			bar := func(kind, label string, start, end int) {
				if from, to, ok := line.cut(start, end); ok {
					standBar(c, kind, label, vg.Rectangle{
						Min: vg.Point{X: x(from) + 0.4, Y: y(row + 0.1)}, Max: vg.Point{X: x(to) - 0.4, Y: y(row + 0.85)},
					})
				}
			}
			if r.kind != sheet.StateSlide {
				bar(r.kind, r.label, r.start, r.end)
				continue
			}
			bar(sheet.StatePlant, "", r.start, r.from-1)
			bar(r.kind, r.label, r.from, r.to)
			bar(sheet.StatePlant, "", r.to+1, r.end)
		}
	}
}

// standBar draws one thing that lasts in its place.
func standBar(c draw.Canvas, kind, label string, r vg.Rectangle) {
	s := words(7, ink, draw.XCenter, draw.YCenter)
	switch kind {
	case sheet.StatePlant:
		fill(c, plant, r.Min.X, r.Min.Y, r.Max.X, r.Max.Y)
	case sheet.StateSlide:
		outline(c, stroke(slide, 1.4, 3, 1.5), r.Min.X+0.7, r.Min.Y+0.7, r.Max.X-0.7, r.Max.Y-0.7)
		s = bold(s)
	case flight:
		c.StrokeLines(stroke(air, 1.1), arch(r.Min.X, r.Max.X, r.Min.Y, r.Max.Y))
	}
	fitting(c, s, vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}, r.Max.X-r.Min.X, label)
}

// arch goes up and comes down, as what is in the air does.
func arch(x0, x1, low, high vg.Length) (list []vg.Point) {
	const n = 16
	for i := 0; i <= n; i++ {
		t := float64(i) / n
		list = append(list, vg.Point{X: x0 + vg.Length(t)*(x1-x0), Y: low + vg.Length(4*t*(1-t))*(high-low)})
	}
	return list
}

// finer is how many times its size a strip is drawn, so that viewers do not blur it.
const finer = 4

// band draws the part of a strip that is on a line.
func band(st Strip, line span, from float64) sketch {
	return func(c draw.Canvas, x, y func(float64) vg.Length) {
		start, end := max(st.Start, line.start), min(st.End, line.end)
		if start > end {
			return
		}
		b := st.Picture.Bounds()
		part := image.Rect(b.Min.X+start-st.Start, b.Min.Y, b.Min.X+end-st.Start+1, b.Max.Y)
		large := image.NewNRGBA(image.Rect(0, 0, finer*part.Dx(), part.Dy()))
		xdraw.NearestNeighbor.Scale(large, large.Bounds(), st.Picture, part, xdraw.Src, nil)
		r := vg.Rectangle{
			Min: vg.Point{X: x(float64(start) - 0.5), Y: y(from + 0.2)},
			Max: vg.Point{X: x(float64(end) + 0.5), Y: y(from + stripLanes)},
		}
		c.DrawImage(r, large)
		outline(c, stroke(rule, 0.5), r.Min.X, r.Min.Y, r.Max.X, r.Max.Y)
	}
}
