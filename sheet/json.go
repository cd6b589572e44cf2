package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// WriteJSON writes the sheet as JSON (RFC 8259), one element of a list a line,
// members always in the same order. A sheet that Check refuses is not written
// at all: the error is then a *FieldError.
func (s *Sheet) WriteJSON(w io.Writer) error {
	if err := s.Check(); err != nil {
		return err
	}
	var b bytes.Buffer
	b.WriteString("{")
	for i, m := range s.members() {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, "\n  %q: ", m.name)
		if err := m.write(&b, m.value); err != nil {
			return fmt.Errorf("beat sheet: write %s: %w", m.name, err)
		}
	}
	b.WriteString("\n}\n")
	if _, err := w.Write(escapeUnseen(b.Bytes())); err != nil {
		return fmt.Errorf("write beat sheet: %w", err)
	}
	return nil
}

// A member is one line, or block of lines, of the JSON.
type member struct {
	name  string
	value any
	write func(*bytes.Buffer, any) error
}

func (s *Sheet) members() []member {
	list := []member{
		{"format", s.Format, writeLine},
		{"format_version", s.Version, writeLine},
		{"tool", s.Tool, writeLine},
		{"clip", s.Clip, writeBlock},
		{"settings", s.Settings, writeBlock},
		{"shots", s.Shots, writeList[Shot]},
		{"figures", s.Figures, writeList[Figure]},
		{"beats", s.Beats, writeList[Beat]},
		{"exposure", s.Exposure, writeList[Exposure]},
		{"timing", s.Timing, writeList[Timing]},
		{"pops", s.Pops, writeList[Pop]},
	}
	if s.Repeats != nil {
		list = append(list, member{"repeats", s.Repeats, writeLine})
	}
	list = append(list,
		member{"contacts", s.Contacts, writeList[Contact]},
		member{"steps", s.Steps, writeList[Step]},
		member{"flights", s.Flights, writeList[Flight]},
		member{"impacts", s.Impacts, writeList[Impact]},
		member{"feet_out_of_frame", s.FeetOut, writeList[FeetOut]},
		member{"framing", s.Framing, writeList[Framing]})
	if len(s.Poses) > 0 {
		list = append(list, member{"poses", s.Poses, writeList[Pose]})
	}
	if len(s.Parts) > 0 {
		list = append(list, member{"parts", s.Parts, writeList[Part]})
	}
	if len(s.Twins) > 0 {
		list = append(list, member{"twins", s.Twins, writeList[Twin]})
	}
	if len(s.Reactions) > 0 {
		list = append(list, member{"reactions", s.Reactions, writeList[Reaction]})
	}
	if len(s.Together) > 0 {
		list = append(list, member{"together", s.Together, writeList[Together]})
	}
	if len(s.Lively) > 0 {
		list = append(list, member{"lively", s.Lively, writeList[Lively]})
	}
	if len(s.Approaches) > 0 {
		list = append(list, member{"approaches", s.Approaches, writeList[Approach]})
	}
	if s.Sound != nil {
		list = append(list, member{"sound", s.Sound, writeSound})
	}
	return append(list,
		member{"notes", s.Notes, writeList[Note]},
		member{"remarks", s.Remarks, writeList[Remark]},
		member{"curve", s.Curve, writeCurve})
}

func writeLine(b *bytes.Buffer, v any) error {
	text, err := json.Marshal(v)
	b.Write(text)
	return err
}

func writeBlock(b *bytes.Buffer, v any) error {
	text, err := json.MarshalIndent(v, "  ", "  ")
	b.Write(text)
	return err
}

func writeList[T any](b *bytes.Buffer, v any) error {
	list := v.([]T)
	if len(list) == 0 {
		b.WriteString("[]")
		return nil
	}
	b.WriteString("[")
	for i := range list {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString("\n    ")
		if err := writeLine(b, list[i]); err != nil {
			return err
		}
	}
	b.WriteString("\n  ]")
	return nil
}

func writeCurve(b *bytes.Buffer, v any) error {
	c := v.(Curve)
	b.WriteString("{\n    \"motion\": ")
	if err := writeLine(b, c.Motion); err != nil {
		return err
	}
	b.WriteString(",\n    \"camera\": ")
	if err := writeLine(b, c.Camera); err != nil {
		return err
	}
	if c.Bands.known() {
		b.WriteString(",\n    \"bands\": ")
		if err := c.Bands.write(b); err != nil {
			return err
		}
	}
	b.WriteString("\n  }")
	return nil
}

// escapeUnseen writes characters that do not print as themselves as \u
// escapes: bidirectional and control characters of a file name then reach no
// terminal raw. They only stand inside strings, where the escape means the
// same.
func escapeUnseen(text []byte) []byte {
	var out []byte
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		switch {
		case r == '\n' || r != utf8.RuneError && strconv.IsPrint(r):
			out = append(out, text[i:i+size]...)
		case r > 0xffff:
			hi, lo := utf16.EncodeRune(r)
			out = fmt.Appendf(out, `\u%04x\u%04x`, hi, lo)
		default:
			out = fmt.Appendf(out, `\u%04x`, r)
		}
		i += size
	}
	return out
}
