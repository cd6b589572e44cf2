package sheet

import (
	"fmt"
	"io"

	"holdfast/sheet/internal/page"
)

// Widths of the readable table in characters.
const (
	DefaultWidth = page.DefaultWidth // where nobody says how wide the page is
	MinWidth     = page.MinWidth     // narrower pages get this width
)

// WriteTable writes the sheet for people: what the clip is, its shots, one row
// a beat, a line of motion, how the beats vary, who comes, goes and walks up to whom, tables of contacts, flights, impacts, framing and parts where there are
// any, what is heard, and under them the exposure pattern, notes and warnings. No line is
// wider than width characters, or MinWidth if that is more; 0 means
// DefaultWidth. A sheet that Check refuses is not written: the error is then a
// *FieldError.
func (s *Sheet) WriteTable(w io.Writer, width int) error {
	if err := s.Check(); err != nil {
		return err
	}
	p := page.New(width)
	s.writeHead(p)
	p.Table(s.shotColumns())
	p.Table(s.beatColumns())
	s.writeMotion(p)
	s.writeTiming(p)
	s.writeLively(p)
	s.writeReactions(p)
	s.writeTogether(p)
	s.writeStaging(p)
	s.writeGround(p)
	s.writeFraming(p)
	s.writePoses(p)
	s.writeParts(p)
	s.writeLooks(p)
	s.writeTwins(p)
	s.writeSound(p)
	s.writeFoot(p)
	if _, err := w.Write(p.Bytes()); err != nil {
		return fmt.Errorf("write beats as a table: %w", err)
	}
	return nil
}
