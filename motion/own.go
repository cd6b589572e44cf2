package motion

import (
	"holdfast/motion/beats"
	"holdfast/motion/figure"
	"holdfast/motion/travel"
)

// An Own is what one figure did by itself. Frames count from the clip's first.
type Own struct {
	Start int // the frame of the first value
	// Motion is the figure's mean travel from the frame before, in its own heights
	// with the camera taken out; it says nothing where the doubt is not Known.
	Motion []float64
	Doubt  []figure.Doubt // of each frame of Motion
	Beats  []beats.Beat   // of each stretch that is known; they leave out the others

	max, wide []float64 // pixels; of the part that goes farthest, and over an area
	mean      []float64 // pixels
	series    beats.Series
}

// own takes over what figure k of a stretch did by itself, before the stretch is
// let go.
func (s *shot) own(found *figure.Found, k int, maps []*travel.Map) *Own {
	if k >= len(found.Own) {
		return nil // the picture is too small to measure travel in
	}
	from := found.Own[k]
	o := &Own{Start: s.first + from.Start, Doubt: from.Doubt, mean: from.Mean}
	area := areaNeighbours(found.Figures[k].HeightPx)
	for i, cells := range from.Cells {
		top, wide := from.Top[i], from.Top[i]
		if m := maps[from.Start+i]; m != nil {
			top, wide = max(top, farthest(m, cells, 1)), max(wide, farthest(m, cells, area))
		}
		o.max, o.wide = append(o.max, top), append(o.wide, wide)
		o.mean[i] = min(o.mean[i], top)
	}
	if len(o.mean) > 0 {
		o.mean[0] = 0 // nothing is known of the step that led to it
	}
	return o
}

// scaleOwn sets what the figures of the shot did against their own heights. The
// floor is that of as many cells as all figures have, which is no lower.
func (s *shot) scaleOwn(rate float64) {
	for _, f := range s.figures {
		o := f.Own
		if o == nil || f.HeightPx <= 0 {
			continue
		}
		height := f.HeightPx
		all := s.series.floors(height, rate)
		from, to := o.Start-s.start, o.Start-s.start+len(o.max)
		o.series = beats.Series{
			Max: over(o.max, height), Mean: over(o.mean, height), Wide: over(o.wide, height),
			Floor: all.Floor[from:to], WideFloor: all.WideFloor[from:to], Passing: all.Passing[from:to],
		}
		o.Motion = o.series.Mean
	}
}

// Runs are the stretches of frames in which the figure is known, as indices into
// Motion, both ends included. Their first frames show a pose, though the step to
// it is not known.
func (o *Own) Runs() [][2]int {
	var runs [][2]int
	open := false
	for i, d := range o.Doubt {
		if d != figure.Known {
			open = false
			continue
		}
		if !open {
			runs = append(runs, [2]int{i, i})
			open = true
		}
		runs[len(runs)-1][1] = i
	}
	return runs
}

// tellOwn reads beats out of what each figure did by itself, as tell does of the
// whole picture. A move's size is set against the biggest of any figure.
func (r *Result) tellOwn(rate float64) {
	most := 0.0
	for _, f := range r.Figures {
		if f.Own == nil || len(f.Own.Motion) == 0 {
			continue
		}
		f.Own.tell(rate, r.Repeats)
		for _, b := range f.Own.Beats {
			most = max(most, b.Travel)
		}
	}
	for _, f := range r.Figures {
		for i := 0; f.Own != nil && most > 0 && i < len(f.Own.Beats); i++ {
			f.Own.Beats[i].Size = f.Own.Beats[i].Travel / most
		}
	}
}

// tell finds the beats of each stretch that is long enough to hold one.
func (o *Own) tell(rate float64, repeats *beats.Repeats) {
	for _, run := range o.Runs() {
		how := beats.Options{Rate: rate, Repeats: repeats.From(o.Start + run[0])}
		if run[1]-run[0]+1 < how.MinHold() {
			continue
		}
		series := o.between(run[0], run[1]+1)
		for _, b := range beats.Find(series, beats.Exposures(series, how), how) {
			o.Beats = append(o.Beats, later(b, o.Start+run[0]))
		}
	}
}

// between is the series of some frames, that begins with no travel.
func (o *Own) between(from, to int) beats.Series {
	s := o.series
	return beats.Series{
		Max: append([]float64{0}, s.Max[from+1:to]...), Mean: append([]float64{0}, s.Mean[from+1:to]...),
		Wide:  append([]float64{0}, s.Wide[from+1:to]...),
		Floor: s.Floor[from:to], WideFloor: s.WideFloor[from:to], Passing: s.Passing[from:to],
	}
}
