package assemble

import (
	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/figure"
	"holdfast/sheet"
)

// own adds the beats of each figure in shots that have several, after those of the
// whole picture. A lone figure's are the picture's.
func (m *Measured) own(s *sheet.Sheet) {
	several := map[int]int{}
	for _, f := range m.result.Figures {
		several[f.Shot]++
	}
	for i, f := range m.result.Figures {
		if several[f.Shot] < 2 || f.Own == nil {
			continue
		}
		s.Figures[i].Unknown = m.unknown(f)
		for _, b := range f.Own.Beats {
			s.Beats = append(s.Beats, m.ownBeat(f, b))
		}
	}
}

func (m *Measured) ownBeat(f motion.Figure, b beats.Beat) sheet.Beat {
	start, end := m.number(b.Start), m.number(b.End)
	if b.Kind == beats.Hold {
		return sheet.NewHold(f.Shot+1, f.ID, start, end, b.Hold)
	}
	return sheet.NewMove(f.Shot+1, f.ID, start, end, m.number(b.Peak), b.Size)
}

// unknown are the stretches of a figure without beats, each with its reason:
// what no doubt stands against is too short to hold a beat.
func (m *Measured) unknown(f motion.Figure) []sheet.Unknown {
	told := make([]bool, len(f.Own.Doubt))
	// A figure that rests in its place has beats before it is first seen to stir.
	first, last := f.Start, f.End
	for _, b := range f.Own.Beats {
		first, last = min(first, b.Start), max(last, b.End)
		for t := b.Start; t <= b.End; t++ {
			told[t-f.Own.Start] = true
		}
	}
	var list []sheet.Unknown
	for i, d := range f.Own.Doubt {
		t := f.Own.Start + i
		if told[i] || t < first || t > last {
			continue
		}
		n, why := m.number(t), string(d)
		if d == figure.Known {
			why = sheet.UnknownShort
		}
		if k := len(list) - 1; k >= 0 && list[k].End == n-1 && list[k].Why == why {
			list[k].End = n
			continue
		}
		list = append(list, sheet.Unknown{Start: n, End: n, Why: why})
	}
	return list
}
