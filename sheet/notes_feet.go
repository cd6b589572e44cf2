package sheet

import "slices"

// noteFeet adds the notes about feet, in the order of their frames.
func (s *Sheet) noteFeet() {
	if len(s.Contacts) == 0 {
		return
	}
	for _, rule := range []func() []Note{
		s.slideNotes, s.rootedNotes, s.hopNotes, s.evenHopNotes, s.popNotes, s.rhythmNotes,
	} {
		s.Notes = append(s.Notes, rule()...)
	}
	slices.SortStableFunc(s.Notes, func(a, b Note) int { return a.Start - b.Start })
}

// whose names a figure where a shot has several: "figure 2's " or "the ".
func (s *Sheet) whose(figure int) string {
	shot := s.Figures[figure-1].Shot
	for _, f := range s.Figures {
		if f.Shot == shot && f.ID != figure {
			return "figure " + figureName(figure) + "'s "
		}
	}
	return "the "
}

// who is the same for the figure itself: "figure 2" or "the figure".
func (s *Sheet) who(figure int) string {
	if s.whose(figure) == "the " {
		return "the figure"
	}
	return "figure " + figureName(figure)
}
