package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// writeParts writes the beats of parts that were shown by hand, and where they were
// not seen.
func (s *Sheet) writeParts(p *page.Page) {
	if len(s.Parts) > 0 {
		p.Table(s.partColumns())
	}
}

func (s *Sheet) partColumns() []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "part"}, {Name: "beat"}, {Name: "frames"}, {Name: "length", Align: right},
		{Name: "peak", Align: right}, {Name: "size", Align: right, Spare: 1},
	}
	for _, p := range s.Parts {
		for _, r := range p.rows() {
			addRow(c, Visible(p.Name), r.what, span(r.start, r.end), fmt.Sprintf("%d f", r.end-r.start+1), r.peak, r.size)
		}
	}
	return c
}

// A partRow is a row of the table of parts.
type partRow struct {
	start, end       int
	what, peak, size string
}

// rows are the part's beats and the stretches without it, in order.
func (p *Part) rows() []partRow {
	var rows []partRow
	for _, b := range p.Beats {
		r := partRow{start: b.Start, end: b.End, what: b.words()}
		if b.Peak != nil && b.Size != nil {
			r.peak, r.size = strconv.Itoa(*b.Peak), wholePercent(*b.Size)
		}
		rows = append(rows, r)
	}
	for _, l := range p.Lost {
		rows = append(rows, partRow{start: l.Start, end: l.End, what: "not seen"})
	}
	slices.SortFunc(rows, func(a, b partRow) int { return cmp.Compare(a.start, b.start) })
	return rows
}
