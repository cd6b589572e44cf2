package assemble

import (
	"math"

	"holdfast/motion/timing"
	"holdfast/sheet"
)

// texture carries over how a move is timed within.
func (m *Measured) texture(t timing.Move) *sheet.Texture {
	out := &sheet.Texture{Settle: t.Settle}
	if !math.IsNaN(t.Smoothness) {
		smooth := t.Smoothness
		out.Smoothness = &smooth
	}
	for _, h := range t.Hitches {
		out.Hitches = append(out.Hitches, sheet.Hitch{Start: m.number(h.Frame), End: m.number(h.End), Depth: h.Depth})
	}
	return out
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
