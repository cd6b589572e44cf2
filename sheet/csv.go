package sheet

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
)

var csvHead = []string{
	"clip", "beat", "shot", "figure", "kind", "hold", "start", "end", "frames",
	"seconds", "timecode", "peak", "ease_in", "ease_out", "size",
}

// WriteCSV writes one row a beat under a head (RFC 4180, CRLF line ends). No
// cell of it comes alive in a spreadsheet, whatever the clip is called. A
// sheet that Check refuses is not written: the error is then a *FieldError.
func (s *Sheet) WriteCSV(w io.Writer) error {
	if err := s.Check(); err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString(strings.Join(csvHead, ",") + "\r\n")
	for _, beat := range s.Beats {
		cells := []string{
			CSVText(s.Clip.Name), strconv.Itoa(beat.ID), strconv.Itoa(beat.Shot), strconv.Itoa(beat.Figure),
			beat.Kind, beat.Hold, strconv.Itoa(beat.Start), strconv.Itoa(beat.End), strconv.Itoa(beat.Frames),
			csvNumber(beat.Seconds), beat.Timecode, optional(beat.Peak), optional(beat.EaseIn),
			optional(beat.EaseOut), "",
		}
		if beat.Size != nil {
			cells[len(cells)-1] = csvNumber(*beat.Size)
		}
		b.WriteString(strings.Join(cells, ",") + "\r\n")
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("write beats as CSV: %w", err)
	}
	return nil
}

func csvNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

func optional(n *int) string {
	if n == nil {
		return ""
	}
	return strconv.Itoa(*n)
}

// CSVText returns a cell of foreign text. It is always quoted, so that a
// semicolon in it is no separator to a spreadsheet of another locale either,
// and text that would begin a formula gets an apostrophe in front (OWASP, CSV
// Injection: =, +, -, @, tab, carriage return, line feed and the full-width
// forms of the first four; the control characters among them never get past
// Visible).
func CSVText(s string) string {
	s = Visible(s)
	for _, live := range []string{"=", "+", "-", "@", "＝", "＋", "－", "＠"} {
		if strings.HasPrefix(strings.TrimLeft(s, " "), live) {
			s = "'" + s
			break
		}
	}
	return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
}
