package sheet

import (
	"fmt"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// writeGround writes a table each of what stood, flew and bounced, where there
// is any.
func (s *Sheet) writeGround(p *page.Page) {
	if len(s.Contacts) > 0 {
		p.Table(s.contactColumns())
	}
	if len(s.Flights) > 0 {
		p.Table(s.flightColumns())
	}
	if len(s.Impacts) > 0 {
		p.Table(s.impactColumns())
	}
	if len(s.FeetOut) > 0 {
		p.Table(s.feetOutColumns())
	}
}

// withFigure puts a column of figures first where a clip has several.
func (s *Sheet) withFigure(columns []page.Column, figures []string) []page.Column {
	if len(s.Figures) < 2 {
		return columns
	}
	return append([]page.Column{{Name: "figure", Align: text.AlignRight, Cells: figures}}, columns...)
}

// addRow adds one cell to each column.
func addRow(columns []page.Column, cells ...string) {
	for i, cell := range cells {
		columns[i].Cells = append(columns[i].Cells, cell)
	}
}

func (s *Sheet) contactColumns() []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "contact", Align: right}, {Name: "frames"}, {Name: "length", Align: right}, {Align: right, Spare: 1},
		{Name: "state"}, {Name: "slip", Align: right}, {Name: "step", Align: right, Spare: 2}, {Spare: 2},
	}
	steps := map[int]Step{}
	for _, t := range s.Steps {
		steps[t.To] = t
	}
	var figures []string
	for _, k := range s.Contacts {
		frames, length, way := k.End-k.Start+1, "", ""
		if t, ok := steps[k.ID]; ok {
			length, way = fmt.Sprintf("%.2f heights", t.Length), t.Direction
		}
		figures = append(figures, figureName(k.Figure))
		addRow(c, strconv.Itoa(k.ID), span(k.Start, k.End), fmt.Sprintf("%d f", frames), secondWords(s.Clip.length(frames)),
			k.words(), signedPercent(k.SlipShare), length, way)
	}
	return s.withFigure(c, figures)
}

// words says how a contact stands: "plant", "plant, turns", "slide 186–198".
func (c Contact) words() string {
	if c.SlideStart != nil {
		start, end := c.Slide()
		return c.State + " " + span(start, end)
	}
	if c.Turns {
		return c.State + ", turns"
	}
	return c.State
}

// signedPercent writes a share with a tenth of a percent, its sign only where it
// is not nought.
func signedPercent(share float64) string {
	words := fmt.Sprintf("%+.1f %%", 100*share)
	if words == "+0.0 %" || words == "-0.0 %" {
		return "0.0 %"
	}
	return words
}

func (s *Sheet) flightColumns() []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "flight", Align: right}, {Name: "frames"}, {Name: "air", Align: right}, {Align: right, Spare: 1},
		{Name: "rise", Align: right}, {Name: "by gravity", Spare: 3}, {Name: "", Wraps: true}, {Name: "hop", Spare: 2},
	}
	var figures []string
	for _, f := range s.Flights {
		by, word := "", ""
		if g := f.Gravity; g != nil {
			by, word = fmt.Sprintf("%.0f–%.0f %%", 100*g.RiseLow, 100*g.RiseHigh), g.Word
		}
		figures = append(figures, figureName(f.Figure))
		addRow(c, strconv.Itoa(f.ID), span(f.Start, f.End), fmt.Sprintf("%d f", f.Frames), secondWords(s.Clip.length(f.Frames)),
			percent(&f.RiseShare), by, word, f.Ladder)
	}
	return s.withFigure(c, figures)
}

func (s *Sheet) feetOutColumns() []page.Column {
	c := []page.Column{{Name: "feet out of frame"}, {Name: "length", Align: text.AlignRight}}
	var figures []string
	for _, o := range s.FeetOut {
		figures = append(figures, figureName(o.Figure))
		addRow(c, span(o.Start, o.End), fmt.Sprintf("%d f", o.End-o.Start+1))
	}
	return s.withFigure(c, figures)
}

func (s *Sheet) impactColumns() []page.Column {
	c := []page.Column{{Name: "impact at", Align: text.AlignRight}, {Name: "restitution", Align: text.AlignRight}}
	var figures []string
	for _, i := range s.Impacts {
		bounce := ""
		if i.Restitution != nil {
			bounce = fmt.Sprintf("%.2f", *i.Restitution)
		}
		figures = append(figures, figureName(i.Figure))
		addRow(c, fmt.Sprintf("%.1f", i.Frame), bounce)
	}
	return s.withFigure(c, figures)
}
