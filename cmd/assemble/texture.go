package assemble

import (
	"math"

	"holdfast/motion/timing"
	"holdfast/sheet"
)

// texture carries over how a move is timed within.
func (m *Measured) texture(t timing.Move) *sheet.Texture {
	out := &sheet.Texture{Settle: t.Settle, Smoothness: known(t.Smoothness)}
	for _, h := range t.Hitches {
		out.Hitches = append(out.Hitches, sheet.Hitch{Start: m.number(h.Frame), End: m.number(h.End), Depth: h.Depth})
	}
	out.Spacing = m.spacing(t.Spacing)
	return out
}

// spacing carries over how far each drawing of a move goes; nil where it has none.
func (m *Measured) spacing(t timing.Spacing) *sheet.Spacing {
	if len(t.Frames) == 0 {
		return nil
	}
	out := &sheet.Spacing{
		Travel: t.Travel, EaseIn: known(t.EaseIn), EaseOut: known(t.EaseOut), Least: known(t.Least),
	}
	for _, f := range t.Frames {
		out.Drawings = append(out.Drawings, m.number(f))
	}
	return out
}

// known is nil for NaN.
func known(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}

// pops adds what jumps and comes back.
func (m *Measured) pops(s *sheet.Sheet) {
	for _, p := range m.result.Pops {
		s.Pops = append(s.Pops, sheet.Pop{
			Shot: p.Shot + 1, Start: m.number(p.Start), End: m.number(p.End),
			Jump: p.Jump, Around: p.Around, Left: p.Left,
		})
	}
}
