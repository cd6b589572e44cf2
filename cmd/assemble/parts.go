package assemble

import (
	"math"

	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/parts"
	"holdfast/sheet"
)

// parts adds what was shown by hand and followed.
func (m *Measured) parts(s *sheet.Sheet) {
	for i := range m.result.Parts {
		s.Parts = append(s.Parts, m.part(&m.result.Parts[i]))
	}
}

// twins adds which parts do the same.
func (m *Measured) twins(s *sheet.Sheet) {
	for _, t := range m.result.Twins {
		s.Twins = append(s.Twins, sheet.Twin{
			Shot: t.Shot + 1, First: m.partName(t.First, sheet.LeftHalf), Second: m.partName(t.Second, sheet.RightHalf),
			Start: m.number(t.Start), End: m.number(t.End), Way: t.Way, Likeness: t.Likeness, Offset: t.Offset,
		})
	}
}

// partName is that of a part that was shown, or of the half that stands for none.
func (m *Measured) partName(part int, half string) string {
	if part == motion.NoPart {
		return half
	}
	return m.result.Parts[part].Name
}

func (m *Measured) part(p *motion.Part) sheet.Part {
	out := sheet.Part{Name: p.Name, Shot: p.Shot + 1, Start: m.number(p.Start), End: m.number(p.Start + len(p.Steps) - 1)}
	for _, step := range p.Steps {
		out.Boxes = append(out.Boxes, m.partBox(step.Box))
	}
	for _, v := range p.Motion() {
		if math.IsNaN(v) {
			out.Motion = append(out.Motion, nil)
			continue
		}
		out.Motion = append(out.Motion, &v)
	}
	for _, b := range p.Beats {
		out.Beats = append(out.Beats, m.partBeat(b))
	}
	for _, l := range p.Looks {
		out.Looks = append(out.Looks, sheet.Look{
			Kind: l.Kind, Way: l.Way, Start: m.number(l.Start), End: m.number(l.End), Peak: m.number(l.Peak),
			Size: l.Size, Rest: l.Rest, Cut: l.Cut,
		})
	}
	return out
}

func (m *Measured) partBox(b parts.Box) *[4]float64 {
	if b.Empty() {
		return nil
	}
	sx, sy := m.scale()
	return &[4]float64{b.X * sx, b.Y * sy, b.W * sx, b.H * sy}
}

func (m *Measured) partBeat(b beats.Beat) sheet.PartBeat {
	out := sheet.PartBeat{Kind: b.Kind, Start: m.number(b.Start), End: m.number(b.End), Hold: b.Hold}
	if b.Kind == beats.Move {
		peak, size := m.number(b.Peak), b.Size
		out.Peak, out.Size = &peak, &size
	}
	return out
}
