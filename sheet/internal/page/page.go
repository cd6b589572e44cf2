// Package page lays out text for people: paragraphs and plain tables that fit a
// width.
package page

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// Widths of the readable table in characters.
const (
	DefaultWidth = 100 // where nobody says how wide the page is
	MinWidth     = 60  // narrower pages get this width
)

// New returns an empty page. It is width characters wide, or MinWidth if that is
// more; 0 means DefaultWidth.
func New(width int) *Page {
	if width == 0 {
		width = DefaultWidth
	}
	return &Page{width: max(width, MinWidth)}
}

// A Page is text of a set width; its lines are in the buffer.
type Page struct {
	bytes.Buffer
	width int
}

// Width is how many characters a line may have.
func (p *Page) Width() int { return p.width }

// Line writes one paragraph, its further lines indented.
func (p *Page) Line(format string, args ...any) {
	const indent = "  "
	lines := Wrap(Visible(fmt.Sprintf(format, args...)), p.width-len(indent))
	p.WriteString(strings.Join(lines, "\n"+indent) + "\n")
}

// Wrap breaks a paragraph at spaces, and words longer than a line anywhere.
func Wrap(s string, width int) []string {
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

// A Column is one column of a table: all its cells, and what may become of it
// on a narrow page.
type Column struct {
	Name  string
	Align text.Align
	Cells []string
	Spare int  // it may be left out, the highest first; 0: it stays
	Wraps bool // its cells may run over several lines
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

// Table writes columns under a blank line, wrapping and leaving out columns
// until the rest fits the page.
func (p *Page) Table(columns []Column) {
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
func (c Column) contentWidth() int {
	w := text.StringWidth(c.Name)
	for _, cell := range c.Cells {
		w = max(w, text.StringWidth(cell))
	}
	if c.width > 0 {
		w = min(w, c.width)
	}
	return w
}

// widest returns the column to wrap next, -1 if none can give way.
func widest(columns []Column) int {
	best, most := -1, minWrap
	for i, c := range columns {
		if w := c.contentWidth(); c.Wraps && w > most {
			best, most = i, w
		}
	}
	return best
}

// sparest returns the column to leave out first, -1 if all must stay.
func sparest(columns []Column) int {
	best := -1
	for i, c := range columns {
		if c.Spare > 0 && (best < 0 || c.Spare > columns[best].Spare) {
			best = i
		}
	}
	return best
}

// render returns the table's text and the width of its widest line.
func render(columns []Column) (out string, wide int) {
	t := table.NewWriter()
	t.SetStyle(plain)
	t.SuppressTrailingSpaces()
	var head table.Row
	var configs []table.ColumnConfig
	for i, c := range columns {
		head = append(head, c.Name)
		configs = append(configs, table.ColumnConfig{
			Number: i + 1, Align: c.Align, AlignHeader: c.Align,
			WidthMax: c.width, WidthMaxEnforcer: text.WrapSoft,
		})
	}
	t.AppendHeader(head)
	t.SetColumnConfigs(configs)
	for i := range columns[0].Cells {
		var row table.Row
		for _, c := range columns {
			row = append(row, c.Cells[i])
		}
		t.AppendRow(row)
	}
	out = t.Render() + "\n"
	for _, l := range strings.Split(out, "\n") {
		wide = max(wide, text.StringWidth(l))
	}
	return out, wide
}
