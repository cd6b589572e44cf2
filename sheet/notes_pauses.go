package sheet

import "fmt"

var pauseWithoutHoldRule = &Rule{
	Kind:       "pause-without-hold",
	Measures:   "pauses in the words in which the figure goes on moving: a pose held there would let the line land",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{pauseFrames},
	Gauge:      Gauge{Names: []string{"frames"}},
	find:       (*review).pauseNotes,
}

var pauseFrames = &Threshold{
	Name: "pause_frames_least", Unit: inFrames24, Default: 12, Min: 6, Max: 240,
	Reason: "a pose takes six to eight frames to read, and as long to settle into", Source: practice,
}

// pauseNotes finds pauses that no hold meets.
func (r *review) pauseNotes() []Note {
	if r.Sound == nil {
		return nil
	}
	var notes []Note
	for _, p := range r.Sound.Pauses {
		if p.Frames < r.frames24(pauseFrames) {
			continue
		}
		for _, t := range r.tracks() {
			if p.Start < t.first || p.End > t.last || !r.acts(t) || t.held(p) || r.travels(t, p) || r.goes(t, p.Start, p.End) > 0 {
				continue
			}
			notes = append(notes, Note{
				Start: p.Start, End: p.End, Weight: WeightLook,
				Text: fmt.Sprintf("%sthe words pause for %d frames and the body goes on through all of them: hold a pose there",
					r.of(t.figure), p.Frames),
				Measured: map[string]any{"frames": p.Frames},
			})
		}
	}
	return notes
}

// held reports whether any frame of a stretch is part of a hold.
func (t track) held(p Stretch) bool {
	for _, b := range t.beats {
		if b.Kind == KindHold && b.Start <= p.End && b.End >= p.Start {
			return true
		}
	}
	return false
}
