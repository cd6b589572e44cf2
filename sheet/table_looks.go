package sheet

import (
	"fmt"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// writeLooks writes where marked heads and eyes look, and the pattern of it.
func (s *Sheet) writeLooks(p *page.Page) {
	right := text.AlignRight
	c := []page.Column{
		{Name: "part"}, {Name: "look"}, {Name: "frames"}, {Name: "peak", Align: right},
		{Name: "size", Align: right}, {Name: "then rests", Align: right},
	}
	for _, part := range s.Parts {
		for _, l := range part.Looks {
			rest := fmt.Sprintf("%d f", l.Rest)
			if l.Cut {
				rest = "over " + rest
			}
			addRow(c, Visible(part.Name), l.Kind+" "+l.Way, span(l.Start, l.End), strconv.Itoa(l.Peak), wholePercent(l.Size), rest)
		}
	}
	if len(c[0].Cells) == 0 {
		return
	}
	p.Table(c)
	for _, part := range s.Parts {
		for _, l := range part.Patterns {
			p.Line("%s, %s: %s", capital(Visible(part.Name)), frameWords(l.Start, l.End), l.Text)
		}
	}
}
