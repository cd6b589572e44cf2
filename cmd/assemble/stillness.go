package assemble

// nothingMoves is said of a clip that is one hold without a figure: a still
// slide, black, noise, a strobe. The sheet is right, but says nothing.
const nothingMoves = "nothing travels in these pictures and no figure is found: there is no beat to tell but the one hold"

// stillness warns of a clip in which nothing was found.
func (m *Measured) stillness() []string {
	r := m.result
	if len(r.Figures) > 0 || len(r.Beats) != 1 || len(r.Shots) != 1 || r.Frames < 2 {
		return nil
	}
	for _, travel := range r.Curve.Motion {
		if travel != 0 {
			return nil
		}
	}
	return []string{nothingMoves}
}
