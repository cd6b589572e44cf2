package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// writeFraming writes how held figures stand in the picture, one row for each
// figure and run of holds that are framed alike.
func (s *Sheet) writeFraming(p *page.Page) {
	if len(s.Framing) > 0 {
		p.Table(s.framingColumns(s.framed()))
	}
}

// framedAlike is how much room, a share of the picture, may change from one hold
// to the next of a row: less is no other framing to the eye.
const framedAlike = 0.02

// framed returns one framing for each run of a figure's holds that are framed
// alike, with the frames of all of them; its numbers are those of the first.
func (s *Sheet) framed() []Framing {
	var rows []Framing
	last := map[int]int{} // the row of a figure
	for _, f := range s.Framing {
		if i, ok := last[f.Figure]; ok && rows[i].alike(f) {
			rows[i].End = f.End
			continue
		}
		last[f.Figure] = len(rows)
		rows = append(rows, f)
	}
	return rows
}

// alike reports whether two holds of a shot are framed alike.
func (f Framing) alike(g Framing) bool {
	most := 0.0
	for _, d := range []float64{f.Headroom - g.Headroom, f.FootRoom - g.FootRoom, f.LeftRoom - g.LeftRoom, f.RightRoom - g.RightRoom} {
		most = max(most, math.Abs(d))
	}
	return most <= framedAlike && slices.Equal(f.Touches, g.Touches)
}

func (s *Sheet) framingColumns(rows []Framing) []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "held"}, {Name: "above", Align: right}, {Name: "below", Align: right}, {Name: "left", Align: right},
		{Name: "right", Align: right}, {Name: "size", Align: right}, {Name: "third", Spare: 1}, {Name: "safe in", Spare: 2}, {Name: "touches"},
	}
	var figures []string
	for _, f := range rows {
		figures = append(figures, figureName(f.Figure))
		addRow(c, span(f.Start, f.End), wholePercent(f.Headroom), wholePercent(f.FootRoom), wholePercent(f.LeftRoom),
			wholePercent(f.RightRoom), wholePercent(f.Size), f.Third, safeWords[f.Safe], strings.Join(f.Touches, ", "))
	}
	return s.withFigure(c, figures)
}

var safeWords = map[string]string{SafeTitle: "title area", SafeAction: "action area", SafeNone: "neither area"}

func wholePercent(share float64) string { return fmt.Sprintf("%.0f %%", max(0, 100*share)) }
