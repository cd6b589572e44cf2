package sheet

import (
	"fmt"
	"slices"
)

var rootedRule = &Rule{
	Kind:       "rooted-feet",
	Measures:   "how long the body moves while no foot steps, slides or is lifted to shift the weight",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{rootedSeconds, rootedMoving},
	Gauge:      Gauge{Names: []string{"seconds"}},
	find:       (*review).rootedNotes,
}

var (
	rootedSeconds = &Threshold{
		Name: "rooted_seconds", Unit: inSeconds, Default: 4, Min: 0.5, Max: 600,
		Reason: "one that stands and talks shifts its weight and takes adjusting steps", Source: practice,
	}
	rootedMoving = &Threshold{
		Name: "moving_share_least", Unit: inShare, Default: 0.25, Min: 0, Max: 1,
		Reason: "so much of that time must be moves: a figure that rests may stand", Source: practice,
	}
)

// rootedNotes finds long stretches in which the body moves and the feet do
// nothing.
func (r *review) rootedNotes() []Note {
	var notes []Note
	for _, stands := range r.standsByFigure() {
		events := r.footEvents(stands)
		for i := 1; i < len(events); i++ {
			start, end := events[i-1], events[i]-1
			if n, ok := r.rooted(stands, start, end); ok {
				notes = append(notes, n)
			}
		}
	}
	return notes
}

// footEvents are the frames on which something comes down, or is gone.
func (s *Sheet) footEvents(stands []Contact) []int {
	var events []int
	for _, c := range stands {
		events = append(events, c.Start, c.End+1)
	}
	slices.Sort(events)
	return slices.Compact(events)
}

func (r *review) rooted(stands []Contact, start, end int) (Note, bool) {
	seconds := r.Clip.length(end - start + 1)
	down := 0
	for _, c := range stands {
		if c.Start <= start && end <= c.End {
			if c.State != StatePlant {
				return Note{}, false
			}
			down++
		}
	}
	moving := r.movingShare(stands[0], start, end)
	if down == 0 || seconds < r.at(rootedSeconds) || moving < r.at(rootedMoving) {
		return Note{}, false
	}
	return Note{
		Start: start, End: end, Weight: WeightLook,
		Text: fmt.Sprintf("%s moves for %.1f s with its feet rooted to the spot: no step and no foot lifted to shift the weight",
			r.who(stands[0].Figure), seconds),
		Measured: map[string]any{
			"seconds": round(seconds, shareDigits), "contacts": down, "moving_share": round(moving, shareDigits),
		},
	}, true
}

// movingShare is the share of frames in which a contact's figure moves by its
// beats, or the whole picture where it has none.
func (s *Sheet) movingShare(c Contact, start, end int) float64 {
	moving, beats := map[int]int{}, map[int]int{}
	for _, b := range s.Beats {
		n := min(end, b.End) - max(start, b.Start) + 1
		if n <= 0 {
			continue
		}
		beats[b.Figure] += n
		if b.Kind == KindMove {
			moving[b.Figure] += n
		}
	}
	figure := c.Figure
	if beats[figure] == 0 {
		figure = 0
	}
	return float64(moving[figure]) / float64(end-start+1)
}
