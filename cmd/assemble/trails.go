package assemble

import (
	"fmt"

	"holdfast/motion/feet"
)

// trails says of each foot that was marked where it was lost, if it was.
func (m *Measured) trails() []string {
	var list []string
	for i, f := range m.Feet {
		if text := m.trail(i, f); text != "" {
			list = append(list, text)
		}
	}
	return list
}

func (m *Measured) trail(i int, f feet.Mark) string {
	sx, sy := m.scale()
	name := fmt.Sprintf("the foot marked at %.0f,%.0f on frame %d", f.X*sx, f.Y*sy, m.number(f.Frame))
	for _, t := range m.result.Trails {
		if t.Mark != i {
			continue
		}
		if s := m.result.Shots[t.Shot]; t.Start > s.Start || t.End < s.End {
			return fmt.Sprintf("%s was followed from %d to %d only", name, m.number(t.Start), m.number(t.End))
		}
		return ""
	}
	return name + " is no figure's: mark the figure with --figure"
}
