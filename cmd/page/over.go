package page

import (
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
	Safe     []float64       `json:"safe"` // shares of the picture
	Figures  []overFigure    `json:"figures"`
	Contacts []sheet.Contact `json:"contacts"`
	Camera   [][4]float64    `json:"camera"` // steps of the curve; none where it stands throughout
}

type overFigure struct {
	ID    int   `json:"id"`
	Start int   `json:"start"`
	Boxes []int `json:"boxes"` // four numbers a frame
}

func (p *Page) over() over {
	s := p.Sheet
	o := over{
		Width: s.Clip.Width, Height: s.Clip.Height, Safe: []float64{sheet.ActionShare, sheet.TitleShare},
		Figures: []overFigure{}, Contacts: s.Contacts, Camera: [][4]float64{},
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
	if slices.ContainsFunc(s.Curve.Camera, func(step [4]float64) bool { return step != [4]float64{0, 0, 0, 1} }) {
		o.Camera = s.Curve.Camera
	}
	return o
}
