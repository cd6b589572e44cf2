package sheet

import (
	"fmt"
	"math"
)

var footPopRule = &Rule{
	Kind:       "foot-pop",
	Measures:   "a foot that leaves the ground for a frame or two and is back at the same spot",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{footPopSeconds, footPopSpot},
	Gauge:      Gauge{Names: []string{"apart_share"}},
	find:       (*review).footPopNotes,
}

var (
	footPopSeconds = &Threshold{
		Name: "pop_seconds_most", Unit: inSeconds, Default: 0.083, Min: 0.01, Max: 1,
		Reason: "two frames at 24 a second: nobody lifts a foot and puts it down again in that time", Source: practice,
	}
	footPopSpot = &Threshold{
		Name: "apart_share_most", Unit: inHeights, Default: SlideShare, Min: 0.001, Max: 0.5,
		Reason: "how far apart the spots before and after may be: what goes less is no slide either", Source: practice,
	}
)

// footPopNotes finds contacts that break for a frame or two at one spot.
func (r *review) footPopNotes() []Note {
	var notes []Note
	for _, stands := range r.standsByFigure() {
		for _, a := range stands {
			for _, b := range stands {
				if n, ok := r.footPop(stands, a, b); ok {
					notes = append(notes, n)
				}
			}
		}
	}
	return notes
}

func (r *review) footPop(stands []Contact, a, b Contact) (Note, bool) {
	gap := b.Start - a.End - 1
	if gap < 1 || float64(gap) > math.Round(r.at(footPopSeconds)*r.Clip.FPS.Float()) {
		return Note{}, false
	}
	off := r.spotShare(a, b)
	if off > r.at(footPopSpot) {
		return Note{}, false
	}
	for _, c := range stands { // something else stands there all the while
		if c.Start <= a.End && c.End >= b.Start && r.spotShare(c, b) <= r.at(footPopSpot) {
			return Note{}, false
		}
	}
	for _, f := range r.Flights { // the whole figure was off the ground
		if f.Figure == a.Figure && f.Start <= b.Start && f.End > a.End {
			return Note{}, false
		}
	}
	return Note{
		Start: a.End + 1, End: b.Start - 1, Weight: WeightLook,
		Text: fmt.Sprintf("%sfoot pops off the ground for %s and is back at the same spot", r.whose(a.Figure), count(gap, "frame")),
		Measured: map[string]any{
			"contacts": []int{a.ID, b.ID}, "frames": gap, "apart_share": round(off, shareDigits),
		},
	}, true
}

// spotShare is how far apart two contacts of a figure lie, figure heights.
func (s *Sheet) spotShare(a, b Contact) float64 {
	dx, dy := s.apart(a, b)
	return math.Hypot(dx, dy) / s.Figures[a.Figure-1].Height
}
