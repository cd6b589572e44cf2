package sheet

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// Widths of the readable table in characters.
const (
	DefaultWidth = 100 // where nobody says how wide the page is
	MinWidth     = 60  // narrower pages get this width
)

// WriteTable writes the sheet for people: what the clip is, its shots, one row
// a beat, how the beats vary, tables of contacts, flights, impacts and framing where there are any, and under
// them the exposure pattern, notes and warnings. No line is
// wider than width characters, or MinWidth if that is more; 0 means
// DefaultWidth. A sheet that Check refuses is not written: the error is then a
// *FieldError.
func (s *Sheet) WriteTable(w io.Writer, width int) error {
	if err := s.Check(); err != nil {
		return err
	}
	if width == 0 {
		width = DefaultWidth
	}
	page := page{width: max(width, MinWidth)}
	s.writeHead(&page)
	page.table(s.shotColumns())
	page.table(s.beatColumns())
	s.writeTiming(&page)
	s.writeGround(&page)
	s.writeFraming(&page)
	s.writeFoot(&page)
	if _, err := w.Write(page.Bytes()); err != nil {
		return fmt.Errorf("write beats as a table: %w", err)
	}
	return nil
}

// A page is text of a set width.
type page struct {
	bytes.Buffer
	width int
}

// line writes one paragraph, its further lines indented.
func (p *page) line(format string, args ...any) {
	const indent = "  "
	lines := wrap(Visible(fmt.Sprintf(format, args...)), p.width-len(indent))
	p.WriteString(strings.Join(lines, "\n"+indent) + "\n")
}

// wrap breaks a paragraph at spaces, and words longer than a line anywhere.
func wrap(s string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		for text.StringWidth(word) > width {
			head := text.Snip(word, width, "")
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines, word = append(lines, head), word[len(head):]
		}
		switch {
		case line == "":
			line = word
		case text.StringWidth(line)+1+text.StringWidth(word) > width:
			lines, line = append(lines, line), word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}

// A column is one column of a table: all its cells, and what may become of it
// on a narrow page.
type column struct {
	name  string
	align text.Align
	cells []string
	spare int  // it may be left out, the highest first; 0: it stays
	wraps bool // its cells may run over several lines
	width int  // width it is wrapped to; 0: its own
}

// minWrap is the width below which a column is not wrapped: a word or two.
const minWrap = 10

// plain is the look of every table: no lines but one under the head.
var plain = table.Style{
	Name:   "plain",
	Box:    table.BoxStyle{MiddleHorizontal: "-", PaddingRight: "  ", UnfinishedRow: "~"},
	Format: table.FormatOptions{Header: text.FormatDefault, Row: text.FormatDefault},
	Options: table.Options{
		SeparateHeader: true, DoNotColorBordersAndSeparators: true,
	},
}

// table writes columns under a blank line, wrapping and leaving out columns
// until the rest fits the page.
func (p *page) table(columns []column) {
	out, wide := render(columns)
	for wide > p.width {
		if i := widest(columns); i >= 0 {
			columns[i].width = max(minWrap, columns[i].contentWidth()-(wide-p.width))
		} else if i := sparest(columns); i >= 0 {
			columns = append(columns[:i:i], columns[i+1:]...)
		} else {
			break
		}
		out, wide = render(columns)
	}
	p.WriteString("\n" + out)
}

// contentWidth returns the width of the widest cell, as wrapped so far.
func (c column) contentWidth() int {
	w := text.StringWidth(c.name)
	for _, cell := range c.cells {
		w = max(w, text.StringWidth(cell))
	}
	if c.width > 0 {
		w = min(w, c.width)
	}
	return w
}

// widest returns the column to wrap next, -1 if none can give way.
func widest(columns []column) int {
	best, most := -1, minWrap
	for i, c := range columns {
		if w := c.contentWidth(); c.wraps && w > most {
			best, most = i, w
		}
	}
	return best
}

// sparest returns the column to leave out first, -1 if all must stay.
func sparest(columns []column) int {
	best := -1
	for i, c := range columns {
		if c.spare > 0 && (best < 0 || c.spare > columns[best].spare) {
			best = i
		}
	}
	return best
}

// render returns the table's text and the width of its widest line.
func render(columns []column) (out string, wide int) {
	t := table.NewWriter()
	t.SetStyle(plain)
	t.SuppressTrailingSpaces()
	var head table.Row
	var configs []table.ColumnConfig
	for i, c := range columns {
		head = append(head, c.name)
		configs = append(configs, table.ColumnConfig{
			Number: i + 1, Align: c.align, AlignHeader: c.align,
			WidthMax: c.width, WidthMaxEnforcer: text.WrapSoft,
		})
	}
	t.AppendHeader(head)
	t.SetColumnConfigs(configs)
	for i := range columns[0].cells {
		var row table.Row
		for _, c := range columns {
			row = append(row, c.cells[i])
		}
		t.AppendRow(row)
	}
	out = t.Render() + "\n"
	for _, l := range strings.Split(out, "\n") {
		wide = max(wide, text.StringWidth(l))
	}
	return out, wide
}
