package assemble

import "holdfast/sheet"

// poses adds what is held, hold by hold, where framing has all of a figure too. Beats
// are those of the result, in order.
func (m *Measured) poses(s *sheet.Sheet) {
	legless := m.legless(s)
	for _, p := range m.result.Poses {
		b := m.result.Beats[p.Beat]
		if k := p.Figure - 1; legless[p.Figure] || !outlined(m.result.Figures[k], m.result.Shots[b.Shot].Camera.Kind) {
			continue
		}
		s.Poses = append(s.Poses, sheet.Pose{
			Beat: p.Beat + 1, Shot: b.Shot + 1, Figure: p.Figure, Start: m.number(b.Start), End: m.number(b.End),
			Lean: known(p.Lean), Width: p.Width, Height: p.Height, Contrast: known(p.Contrast), Way: known(p.Way), Back: p.Back + 1,
		})
	}
}

// legShare is how far under a figure's box it may stand, in shares of the box's
// height, for its legs to be in its outline: a foot is about as high.
const legShare = 0.06

// legless are the figures that stand lower than their outline reaches in any of their
// holds: legs of the colour of what is behind them are missing from it, and its
// height with them.
func (m *Measured) legless(s *sheet.Sheet) map[int]bool {
	list := map[int]bool{}
	for _, p := range m.result.Poses {
		b := m.result.Beats[p.Beat]
		start, end := m.number(b.Start), m.number(b.End)
		boxes := m.boxes(m.result.Figures[p.Figure-1], start, end)
		for _, c := range s.Contacts {
			if n := max(start, c.Start); c.Figure == p.Figure && n <= min(end, c.End) {
				box := boxes[n-start]
				list[p.Figure] = list[p.Figure] || box[3] > 0 && c.Y > box[1]+(1+legShare)*box[3]
			}
		}
	}
	return list
}
