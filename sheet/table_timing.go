package sheet

import (
	"fmt"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// writeTiming writes one row for each figure and shot of some beats.
func (s *Sheet) writeTiming(p *page.Page) {
	var rows []Timing
	for _, t := range s.Timing {
		if t.BeatVariation != nil {
			rows = append(rows, t)
		}
	}
	if len(rows) > 0 {
		p.Table(s.timingColumns(rows))
	}
}

func (s *Sheet) timingColumns(rows []Timing) []page.Column {
	right := text.AlignRight
	shot, figure := page.Column{Name: "shot", Align: right}, page.Column{Name: "figure", Align: right}
	c := []page.Column{
		{Name: "beats vary", Align: right}, {Name: "nPVI", Align: right, Spare: 4}, {Name: "intervals vary", Align: right, Spare: 2},
		{Name: "sizes vary", Align: right, Spare: 1}, {Name: "without hold", Align: right}, {Name: "shortest hold", Align: right, Spare: 3},
		{Name: "longest frozen", Align: right},
	}
	for _, t := range rows {
		shot.Cells = append(shot.Cells, strconv.Itoa(t.Shot))
		figure.Cells = append(figure.Cells, figureName(t.Figure))
		addRow(c, percent(t.BeatVariation), plain0(t.BeatNPVI), percent(t.IntervalVariation), percent(t.SizeVariation),
			t.WithoutHold.words(), t.ShortestHold.words(), t.Frozen.words())
	}
	if s.crowded() {
		c = append([]page.Column{figure}, c...)
	}
	if len(s.Shots) > 1 {
		c = append([]page.Column{shot}, c...)
	}
	return c
}

// plain0 writes a number without decimals.
func plain0(v *float64) string {
	if v == nil {
		return ""
	}
	return fmt.Sprintf("%.0f", *v)
}

// words writes a stretch with its length, "22–30, 9 f".
func (s *Stretch) words() string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf("%s, %d f", span(s.Start, s.End), s.Frames)
}
