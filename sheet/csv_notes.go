package sheet

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// kindRemark is the kind of a row that is a remark; it has no weight.
const kindRemark = "remark"

// WriteNotesCSV writes one row a note, and after them one a remark, as WriteCSV
// writes beats. What a note rests on stands in the JSON only: each kind has
// numbers of its own.
func (s *Sheet) WriteNotesCSV(w io.Writer) error {
	if err := s.Check(); err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString("clip,note,kind,weight,start,end,timecode,text\r\n")
	for _, n := range s.Notes {
		b.WriteString(strings.Join([]string{
			CSVText(s.Clip.Name), strconv.Itoa(n.ID), n.Kind, n.Weight, strconv.Itoa(n.Start), strconv.Itoa(n.End),
			s.Clip.Timecode(n.Start), CSVText(n.Text),
		}, ",") + "\r\n")
	}
	for i, r := range s.Remarks {
		b.WriteString(strings.Join([]string{
			CSVText(s.Clip.Name), strconv.Itoa(len(s.Notes) + i + 1), kindRemark, "", strconv.Itoa(r.Start), strconv.Itoa(r.End),
			s.Clip.Timecode(r.Start), CSVText(r.Text),
		}, ",") + "\r\n")
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("write notes as CSV: %w", err)
	}
	return nil
}
