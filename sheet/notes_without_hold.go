package sheet

import "fmt"

var withoutHoldRule = &Rule{
	Kind:       "long-without-hold",
	Measures:   "how long a figure goes on without holding a pose, where it neither walks nor hops: nothing can be read",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{withoutHoldSeconds, withoutHoldSteps},
	Gauge:      Gauge{Names: []string{"seconds"}},
	find:       (*review).withoutHoldNotes,
}

var (
	withoutHoldSeconds = &Threshold{
		Name: "without_hold_seconds", Unit: inSeconds, Default: 4, Min: 0.5, Max: 600,
		Reason: "acting strikes a pose every second or two; in twice that time one is missed", Source: practice,
	}
	withoutHoldSteps = &Threshold{
		Name: "steps_most", Unit: inCount, Default: 2, Min: 0, Max: 1000, Whole: true,
		Reason: "more steps, hops or new stands than this say that it is on its way, and a walk needs no holds; two put the feet somewhere else", Source: practice,
	}
)

// withoutHoldNotes finds long stretches in which no pose is held.
func (r *review) withoutHoldNotes() []Note {
	var notes []Note
	for _, t := range r.tracks() {
		if !r.acts(t) {
			continue
		}
		for _, run := range t.movingRuns() {
			seconds := r.Clip.length(run.Frames)
			if seconds < r.at(withoutHoldSeconds) || r.travels(t, run) {
				continue
			}
			notes = append(notes, Note{
				Start: run.Start, End: run.End, Weight: WeightLook,
				Text: fmt.Sprintf("%sno pose is held for %.1f s: nothing settles long enough to be read",
					r.of(t.figure), seconds),
				Measured: map[string]any{"seconds": round(seconds, shareDigits), "frames": run.Frames},
			})
		}
	}
	return notes
}

// travels reports whether a figure is on its way through a stretch, or may be as
// its feet are out of the picture.
func (r *review) travels(t track, run Stretch) bool {
	if r.goes(t, run.Start, run.End) > r.whole(withoutHoldSteps) {
		return true
	}
	stands := -1 // the first says only where it stands
	for _, c := range r.Contacts {
		if c.Shot == t.shot && t.has(c.Figure) && c.Start > run.Start && c.Start <= run.End {
			stands++
		}
	}
	if stands > r.whole(withoutHoldSteps) {
		return true
	}
	for _, o := range r.FeetOut {
		if o.Shot == t.shot && t.has(o.Figure) && o.Start <= run.End && o.End >= run.Start {
			return true
		}
	}
	return false
}
