package page

import (
	"fmt"
	"math"
	"slices"

	"holdfast/sheet"
)

// Boxes is where a figure is in the picture, frame by frame from Start: left,
// top, width and height in pixels of the clip, no width where it was not seen.
type Boxes struct {
	Figure int
	Start  int
	At     [][4]float64
}

// over is what is drawn over the picture, with pixels of the clip.
type over struct {
	Width    int             `json:"width"`
	Height   int             `json:"height"`
	Top      int             `json:"top"`  // first row of the picture, under a bar
	Rows     int             `json:"rows"` // of the picture
	Safe     []float64       `json:"safe"` // shares of the picture
	Figures  []overFigure    `json:"figures"`
	Points   []overPoint     `json:"points"` // whose arcs can be shown, in the order of their names
	Contacts []sheet.Contact `json:"contacts"`
	Camera   [][4]float64    `json:"camera"` // steps of the curve; none where it stands throughout
}

type overFigure struct {
	ID    int   `json:"id"`
	Start int   `json:"start"`
	Boxes []int `json:"boxes"` // four numbers a frame
}

type overPoint struct {
	Start int        `json:"start"`
	At    []*float64 `json:"at"` // two numbers a frame, null where it was not seen
}

// points are what has an arc: the middles of figures, and of parts shown by hand.
func (p *Page) points() (list []sheet.Point) {
	for _, f := range p.Boxes {
		list = append(list, sheet.FigurePoint(f.Figure, f.Start, f.At))
	}
	return append(list, p.Sheet.PartPoints()...)
}

// arcNames names the points to people; one name may stand for a part in several shots.
func (p *Page) arcNames() (list []string) {
	several := len(p.Sheet.Shots) > 1
	for _, point := range p.points() {
		name := sheet.Visible(point.Name)
		if several {
			name += fmt.Sprintf(", %d–%d", point.Start, point.End())
		}
		list = append(list, name)
	}
	return list
}

func overPointOf(p sheet.Point) overPoint {
	o := overPoint{Start: p.Start, At: make([]*float64, 0, 2*len(p.At))}
	for _, at := range p.At {
		if at == nil {
			o.At = append(o.At, nil, nil)
			continue
		}
		x, y := math.Round(10*at[0])/10, math.Round(10*at[1])/10
		o.At = append(o.At, &x, &y)
	}
	return o
}

func (p *Page) over() over {
	s := p.Sheet
	top, rows := s.Clip.Shown()
	o := over{
		Width: s.Clip.Width, Height: s.Clip.Height, Top: int(top), Rows: int(rows), Safe: []float64{sheet.ActionShare, sheet.TitleShare},
		Figures: []overFigure{}, Points: []overPoint{}, Contacts: s.Contacts, Camera: [][4]float64{},
	}
	for _, f := range p.Boxes {
		of := overFigure{ID: f.Figure, Start: f.Start, Boxes: make([]int, 0, 4*len(f.At))}
		for _, box := range f.At {
			for _, v := range box {
				of.Boxes = append(of.Boxes, int(math.Round(v)))
			}
		}
		o.Figures = append(o.Figures, of)
	}
	for _, point := range p.points() {
		o.Points = append(o.Points, overPointOf(point))
	}
	if slices.ContainsFunc(s.Curve.Camera, func(step [4]float64) bool { return step != [4]float64{0, 0, 0, 1} }) {
		o.Camera = s.Curve.Camera
	}
	return o
}
