package motion

import (
	"slices"

	"holdfast/motion/beats"
)

// tell reads exposure and beats out of the series of all shots. It waits for
// the end of the clip, since only that shows whether whole pictures repeat.
func (r *Result) tell(rate float64) {
	r.Repeats = beats.FindRepeats(r.unlike)
	for i, s := range r.series {
		r.tellShot(i, s, beats.Options{Rate: rate, Repeats: r.Repeats.From(r.Shots[i].Start)})
		r.tellPoses(i, r.shapes[i])
	}
	r.tellParts(rate)
	for i := range r.Shots {
		r.tellHalves(i, rate)
	}
	r.tellOwn(rate)
}

func (r *Result) tellShot(index int, s beats.Series, o beats.Options) {
	start := r.Shots[index].Start
	exposure := beats.Exposures(s, o)
	for _, e := range exposure {
		e.Start, e.End = e.Start+start, e.End+start
		r.Exposure = append(r.Exposure, Exposure{Shot: index, Exposure: e})
	}
	for _, b := range beats.Find(s, exposure, o) {
		beat := Beat{Shot: index, Beat: later(b, start)}
		if b.Kind == beats.Move {
			beat.Texture = texture(s, b, exposure, o).Later(start)
		}
		r.Beats = append(r.Beats, beat)
	}
}

// grain is the median of how much the still world differs from frame to frame,
// levels.
func (r *Result) grain() float64 {
	if len(r.unlike) < 2 {
		return 0
	}
	all := slices.Clone(r.unlike[1:])
	slices.Sort(all)
	return all[len(all)/2]
}

// floors returns the median and the highest noise floor of all steps, figure
// heights.
func (r *Result) floors() (median, most float64) {
	var all []float64
	for _, s := range r.series {
		if len(s.Floor) > 0 {
			all = append(all, s.Floor[1:]...)
		}
	}
	if len(all) == 0 {
		return 0, 0
	}
	slices.Sort(all)
	return all[len(all)/2], all[len(all)-1]
}
