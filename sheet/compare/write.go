package compare

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
)

// WriteJSON writes the comparison as JSON (RFC 8259), indented.
func (c *Comparison) WriteJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	if err := e.Encode(c); err != nil {
		return fmt.Errorf("write comparison as JSON: %w", err)
	}
	return nil
}

var csvHead = []string{
	"what", "kind", "state", "reference_start", "reference_end", "pass_start", "pass_end",
	"start_offset", "end_offset", "longer", "peak_offset", "size_ratio",
}

// WriteCSV writes one row for each pair of beats, contacts, hops and cuts under
// a head (RFC 4180, CRLF line ends).
func (c *Comparison) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{csvHead}
	for _, list := range []struct {
		what  string
		pairs []Pair
	}{{"beat", c.Beats}, {"contact", c.Contacts}, {"hop", c.Flights}, {"cut", c.Cuts}} {
		for _, p := range list.pairs {
			r1, r2 := ends(p.Reference)
			p1, p2 := ends(p.Pass)
			rows = append(rows, []string{list.what, p.Kind, p.State, r1, r2, p1, p2,
				whole(p.Start), whole(p.End), whole(p.Longer), whole(p.Peak), fraction(p.Size)})
		}
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("write comparison as CSV: %w", err)
	}
	return nil
}

func ends(s *Span) (start, end string) {
	if s == nil {
		return "", ""
	}
	return strconv.Itoa(s.Start), strconv.Itoa(s.End)
}

func whole(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
}

func fraction(x *float64) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64)
}

// PassFrame returns where in the pass a frame of the reference belongs, to a
// fraction of a frame, beat by beat. It is outside the pass where the reference
// has more before or after. ok is false where the clips are not related.
func (c *Comparison) PassFrame(reference int) (frame float64, ok bool) {
	if !c.Related {
		return 0, false
	}
	return float64(c.Pass.FirstFrame) + c.warp.pass(float64(reference-c.Reference.FirstFrame)), true
}

// ReferenceFrame returns which frame of the reference a frame of the pass shows,
// to a fraction of a frame, beat by beat. It is outside the reference where the
// pass has more before or after. ok is false where the clips are not related.
func (c *Comparison) ReferenceFrame(pass int) (frame float64, ok bool) {
	if !c.Related {
		return 0, false
	}
	return float64(c.Reference.FirstFrame) + c.warp.reference(float64(pass-c.Pass.FirstFrame)), true
}

// WriteRetime writes a table that retimes the reference to the pass, as CSV: the
// pass's frame for each frame of the reference, and in whole frames the one to
// show. Cells are empty where the pass has none.
func (c *Comparison) WriteRetime(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	rows := [][]string{{"reference", "pass", "pass_frame"}}
	for frame := c.Reference.FirstFrame; frame <= c.Reference.Last(); frame++ {
		row := []string{strconv.Itoa(frame), "", ""}
		if at, ok := c.PassFrame(frame); ok {
			row[1] = strconv.FormatFloat(round(at, 3), 'f', -1, 64)
			if n := int(math.Floor(at + 0.5)); n >= c.Pass.FirstFrame && n <= c.Pass.Last() {
				row[2] = strconv.Itoa(n)
			}
		}
		rows = append(rows, row)
	}
	if err := out.WriteAll(rows); err != nil {
		return fmt.Errorf("write retiming as CSV: %w", err)
	}
	return nil
}
