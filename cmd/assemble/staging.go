package assemble

import (
	"holdfast/motion/staging"
	"holdfast/sheet"
)

// staging adds which way figures come and go, and who walks up to whom.
func (m *Measured) staging(s *sheet.Sheet) {
	for i, f := range m.result.Figures {
		s.Figures[i].Enters, s.Figures[i].Leaves = m.passage(f.Enters), m.passage(f.Leaves)
	}
	for _, a := range m.result.Approaches {
		n := sheet.Approach{
			Shot: a.Shot + 1, First: a.First, Second: a.Second,
			Start: m.number(a.Start), End: m.number(a.End), Change: a.Change,
		}
		if a.By != staging.BySecond {
			n.By = append(n.By, a.First)
		}
		if a.By != staging.ByFirst {
			n.By = append(n.By, a.Second)
		}
		s.Approaches = append(s.Approaches, n)
	}
}

func (m *Measured) passage(p *staging.Passage) *sheet.Passage {
	if p == nil {
		return nil
	}
	side := sheet.SideNone
	if !p.There {
		side = p.Side.String()
	}
	return &sheet.Passage{Side: side, Start: m.number(p.Start), End: m.number(p.End)}
}
