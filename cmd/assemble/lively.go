package assemble

import (
	"holdfast/motion"
	"holdfast/motion/changes"
	"holdfast/motion/figure"
	"holdfast/sheet"
)

// lively adds the stretches over which the picture of a shot is as lively throughout,
// and those of each figure by itself where there are several.
func (m *Measured) lively(s *sheet.Sheet) {
	for i, shot := range m.result.Shots {
		s.Lively = append(s.Lively, m.stretches(i, 0, m.wholeMotion(shot))...)
		several := m.figuresOf(i)
		if len(several) < 2 {
			continue
		}
		for _, f := range several {
			s.Lively = append(s.Lively, m.stretches(i, f.ID, ownMotion(f))...)
		}
	}
}

// A step is travel from the frame before, figure heights, with the frame it leads to.
type step struct {
	frame  int
	travel float64
}

// wholeMotion are the steps of a whole picture.
func (m *Measured) wholeMotion(shot motion.Shot) (list []step) {
	for t := shot.Start; t <= shot.End; t++ {
		list = append(list, step{t, m.result.Curve.Motion[t]})
	}
	return list
}

// ownMotion are those of a figure where it is known.
func ownMotion(f motion.Figure) (list []step) {
	if f.Own == nil {
		return nil
	}
	for i, v := range f.Own.Motion {
		if f.Own.Doubt[i] == figure.Known {
			list = append(list, step{f.Own.Start + i, v})
		}
	}
	return list
}

func (m *Measured) figuresOf(shot int) (list []motion.Figure) {
	for _, f := range m.result.Figures {
		if f.Shot == shot {
			list = append(list, f)
		}
	}
	return list
}

// stretches cuts some steps where they turn lively or quiet. Steps that never do say
// nothing.
func (m *Measured) stretches(shot, figure int, steps []step) (list []sheet.Lively) {
	rate := m.clip.Rate.Float()
	travel := make([]float64, len(steps))
	for i, st := range steps {
		travel[i] = st.travel
	}
	found := changes.Find(travel, rate)
	if len(found) < 2 {
		return nil
	}
	sum := 0.0
	for _, c := range found {
		sum += c.Mean * float64(c.To-c.From+1)
	}
	for _, c := range found {
		word := sheet.Quiet
		if c.Mean > sum/float64(len(steps)) {
			word = sheet.LivelyWord
		}
		list = append(list, sheet.Lively{
			Shot: shot + 1, Figure: figure, Start: m.number(steps[c.From].frame), End: m.number(steps[c.To].frame),
			Pace: c.Mean * rate, Word: word,
		})
	}
	return list
}
