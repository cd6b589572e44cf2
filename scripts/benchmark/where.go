package main

// A whereScore is what is found in a clip.
type whereScore struct {
	Counts
	Within Share // of those matched, how many are near
	Worst  int   // by how many frames the worst is wrong
}

// add takes in what is found in another clip.
func (s *whereScore) add(o whereScore) {
	s.Counts.add(o.Counts)
	s.Within.add(o.Within)
	s.Worst = max(s.Worst, o.Worst)
}

// row is what is found under a name, for a table.
func (s *whereScore) row(name string) []any {
	return []any{name, s.True, s.missed(), s.extra(), outOf(s.Within.Right, s.Within.Of), s.Worst}
}

// match counts one that is found, off frames from where it is.
func (s *whereScore) match(off, near int) {
	s.Matched++
	s.Within.count(off <= near)
	s.Worst = max(s.Worst, off)
}
