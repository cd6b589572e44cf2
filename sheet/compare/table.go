package compare

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet"
	"holdfast/sheet/internal/page"
)

// WriteTable writes the comparison for people: both clips, what a person would
// say aloud, one row a beat, and each difference. No line is wider than width
// characters, or the narrowest page if that is more; 0 means sheet.DefaultWidth.
func (c *Comparison) WriteTable(w io.Writer, width int) error {
	p := page.New(width)
	p.Line("Reference: %s", clipWords(c.Reference))
	p.Line("Pass: %s", clipWords(c.Pass))
	p.WriteString("\n")
	for _, s := range c.Summary {
		p.Line("%s", s)
	}
	if c.Related {
		p.Line("Likeness %s.", percent(c.Likeness))
		p.Table(beatColumns(c.Beats))
		c.writeEvents(p)
		c.writeDifferences(p)
	}
	if _, err := w.Write(p.Bytes()); err != nil {
		return fmt.Errorf("write comparison as a table: %w", err)
	}
	return nil
}

func clipWords(c sheet.Clip) string {
	return fmt.Sprintf("%s, %s (%d–%d) at %s fps", c.Name, frameCount(c.Frames), c.FirstFrame, c.Last(), c.FPS.Words())
}

// beatColumns is the table of beats: the reference's and the pass's side by
// side, and by how many frames of the pass they differ.
func beatColumns(pairs []Pair) []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "kind"}, {Name: "reference"}, {Align: right, Spare: 3}, {Name: "pass"}, {Align: right, Spare: 4},
		{Name: "starts", Align: right}, {Name: "ends", Align: right}, {Name: "longer", Align: right},
		{Name: "peak", Align: right, Spare: 1}, {Name: "size", Align: right, Spare: 2}, {Name: "state"},
	}
	for _, p := range pairs {
		addRow(c, p.Kind, spanWords(p.Reference), lengthWords(p.Reference), spanWords(p.Pass), lengthWords(p.Pass),
			signed(p.Start), signed(p.End), signed(p.Longer), signed(p.Peak), times(p.Size), stateWords(p.State))
	}
	return c
}

// writeEvents writes a table of hops and cuts, and counts the contacts.
func (c *Comparison) writeEvents(p *page.Page) {
	if events := append(append([]Pair{}, c.Flights...), c.Cuts...); len(events) > 0 {
		p.Table(eventColumns(events))
	}
	if len(c.Contacts) == 0 {
		return
	}
	count := map[string]int{}
	for _, pair := range c.Contacts {
		count[pair.State]++
	}
	p.WriteString("\n")
	p.Line("Contacts: %d in both, %d of the reference only, %d of the pass only.", count[Matched], count[Missing], count[Extra])
}

func eventColumns(pairs []Pair) []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "event"}, {Name: "reference"}, {Name: "pass"}, {Name: "starts", Align: right}, {Name: "ends", Align: right},
		{Name: "rise", Align: right}, {Name: "state"},
	}
	for _, p := range pairs {
		addRow(c, p.Kind, spanWords(p.Reference), spanWords(p.Pass), signed(p.Start), signed(p.End), times(p.Size), stateWords(p.State))
	}
	return c
}

func addRow(columns []page.Column, cells ...string) {
	for i, cell := range cells {
		columns[i].Cells = append(columns[i].Cells, cell)
	}
}

func (c *Comparison) writeDifferences(p *page.Page) {
	if len(c.Differences) > 0 {
		p.WriteString("\n")
	}
	for _, d := range c.Differences {
		at := page.Frames(d.At, d.At)
		if d.Pass != nil {
			at = page.Frames(d.Pass.Start, d.Pass.End)
		}
		p.Line("%s, %s: %s", page.Capital(d.Weight), at, d.Text)
	}
}

// stateWords leaves the usual state out, so that the others stand out.
func stateWords(state string) string {
	if state == Matched {
		return ""
	}
	return state
}

func lengthWords(s *Span) string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf("%d f", s.Frames)
}

// signed writes an offset; none where there is nothing to compare.
func signed(n *int) string {
	switch {
	case n == nil:
		return ""
	case *n == 0:
		return "0"
	}
	return fmt.Sprintf("%+d", *n)
}

func times(ratio *float64) string {
	if ratio == nil {
		return ""
	}
	return fmt.Sprintf("× %s", strings.TrimSuffix(fmt.Sprintf("%.1f", *ratio), ".0"))
}
