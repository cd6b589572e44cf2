package sheet

import (
	"fmt"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"
)

// writeTiming writes one row for each figure and shot of some beats.
func (s *Sheet) writeTiming(p *page) {
	var rows []Timing
	for _, t := range s.Timing {
		if t.BeatVariation != nil {
			rows = append(rows, t)
		}
	}
	if len(rows) > 0 {
		p.table(s.timingColumns(rows))
	}
}

func (s *Sheet) timingColumns(rows []Timing) []column {
	right := text.AlignRight
	shot, figure := column{name: "shot", align: right}, column{name: "figure", align: right}
	c := []column{
		{name: "beats vary", align: right}, {name: "nPVI", align: right, spare: 2}, {name: "intervals vary", align: right},
		{name: "sizes vary", align: right}, {name: "without hold", align: right}, {name: "shortest hold", align: right, spare: 1},
		{name: "longest frozen", align: right},
	}
	for _, t := range rows {
		shot.cells = append(shot.cells, strconv.Itoa(t.Shot))
		figure.cells = append(figure.cells, figureName(t.Figure))
		addRow(c, percent(t.BeatVariation), plain0(t.BeatNPVI), percent(t.IntervalVariation), percent(t.SizeVariation),
			t.WithoutHold.words(), t.ShortestHold.words(), t.Frozen.words())
	}
	if s.crowded() {
		c = append([]column{figure}, c...)
	}
	if len(s.Shots) > 1 {
		c = append([]column{shot}, c...)
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
