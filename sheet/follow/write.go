package follow

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// WriteTable writes the history for people: the passes, what became of the
// notes, one row a note with a column for each pass, and what each note says.
// No line is wider than width characters, or the narrowest page if that is
// more, where the passes are few; 0 means sheet.DefaultWidth.
func (h *History) WriteTable(w io.Writer, width int) error {
	p := page.New(width)
	for i, c := range h.Passes {
		p.Line("Pass %d: %s, %d frames at %s fps", i+1, c.Name, c.Frames, c.FPS.Words())
	}
	p.WriteString("\n")
	for _, s := range h.Summary {
		p.Line("%s", s)
	}
	if len(h.Notes) > 0 {
		p.Table(h.columns())
		p.WriteString("\n")
	}
	for _, state := range states {
		for _, t := range h.Notes {
			if t.State == state {
				p.Line("%s (%s), %s: %s", capitals[state], t.Weight, t.where(), t.Text)
			}
		}
	}
	for _, r := range h.Remarks {
		p.Line("Remark on pass %d, %s%s: %s", r.Pass, page.Frames(r.From, r.To), r.now(len(h.Passes)), r.Text)
	}
	if _, err := w.Write(p.Bytes()); err != nil {
		return fmt.Errorf("write follow-up as a table: %w", err)
	}
	return nil
}

var capitals = map[string]string{
	Worse: "Worse", Back: "Back", New: "New", Remains: "Still there", Better: "Better", Fixed: "Fixed",
}

// where says on which frames of the last pass a note is, or was.
func (t Thread) where() string {
	if t.State == Fixed {
		return "about " + page.Span(t.Start, t.End)
	}
	return page.Frames(t.Start, t.End)
}

// now says where the frames of a remark are in the last pass.
func (r Remark) now(passes int) string {
	if r.Pass == passes || r.Start == r.From && r.End == r.To {
		return ""
	}
	return fmt.Sprintf(", now %s", page.Span(r.Start, r.End))
}

func (h *History) columns() []page.Column {
	c := []page.Column{{Name: "note", Align: text.AlignRight}, {Name: "kind"}, {Name: "state"}, {Name: "weight", Spare: 1}}
	for i := range h.Passes {
		// Of many passes the oldest give way to the width first.
		c = append(c, page.Column{Name: fmt.Sprintf("pass %d", i+1), Spare: spare(i, len(h.Passes))})
	}
	for _, t := range h.Notes {
		cells := []string{strconv.Itoa(t.ID), t.Kind, t.State, t.Weight}
		for _, s := range t.Seen {
			cells = append(cells, s.words())
		}
		for i, cell := range cells {
			c[i].Cells = append(c[i].Cells, cell)
		}
	}
	return c
}

// spare is how readily the column of a pass is left out: never the last two.
func spare(pass, passes int) int {
	if pass >= passes-2 {
		return 0
	}
	return 1 + passes - pass
}

// WriteJSON writes the history as JSON (RFC 8259), indented.
func (h *History) WriteJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	if err := e.Encode(h); err != nil {
		return fmt.Errorf("write follow-up as JSON: %w", err)
	}
	return nil
}

// WriteCSV writes one row a note and pass in which it is seen (RFC 4180, CRLF
// line ends).
func (h *History) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{{"note", "kind", "state", "pass", "start", "end", "weight", "measure", "value", "text"}}
	for _, t := range h.Notes {
		for i, s := range t.Seen {
			if s == nil {
				continue
			}
			value := ""
			if s.Measure != "" {
				value = strconv.FormatFloat(s.Value, 'f', -1, 64)
			}
			rows = append(rows, []string{strconv.Itoa(t.ID), t.Kind, t.State, strconv.Itoa(i + 1),
				strconv.Itoa(s.Start), strconv.Itoa(s.End), s.Weight, s.Measure, value, s.Text})
		}
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("write follow-up as CSV: %w", err)
	}
	return nil
}
