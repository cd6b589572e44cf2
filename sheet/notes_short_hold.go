package sheet

import (
	"fmt"
	"strings"
)

var shortHoldRule = &Rule{
	Kind:       "hold-too-short",
	Measures:   "a pose held between two moves for too few frames to be read",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{readFrames, readSize},
	Gauge:      Gauge{Less: true, Names: []string{"shortest_frames"}},
	find:       (*review).shortHoldNotes,
}

var (
	readFrames = &Threshold{
		Name: "read_frames", Unit: inFrames24, Default: 6, Min: 2, Max: 240,
		Reason: "a pose needs about 6 to 8 frames to read", Source: practice,
	}
	readSize = &Threshold{
		Name: "move_size_least", Unit: "share of the biggest move", Default: 0.1, Min: 0, Max: 1,
		Reason: "moves before and after it must be so big: between small ones the pose is read with its neighbours", Source: practice,
	}
)

// shortHoldNotes finds poses that are gone before they are read, told once for a
// figure and shot.
func (r *review) shortHoldNotes() []Note {
	var notes []Note
	for _, t := range r.tracks() {
		short := r.shortHolds(t)
		if len(short) == 0 {
			continue
		}
		var spans []string
		least := short[0].Frames
		for _, b := range short {
			spans, least = append(spans, span(b.Start, b.End)), min(least, b.Frames)
		}
		text := fmt.Sprintf("the pose is up for %s only, too short to read", count(least, "frame"))
		if len(short) > 1 {
			text = fmt.Sprintf("%d poses are up too short to read: %s", len(short), strings.Join(spans, ", "))
		}
		notes = append(notes, Note{
			Start: short[0].Start, End: short[len(short)-1].End, Weight: WeightLook,
			Text:     r.of(t.figure) + text + fmt.Sprintf("; give it %d frames or more, or go through", r.frames24(readFrames)),
			Measured: map[string]any{"holds": len(short), "shortest_frames": least},
		})
	}
	return notes
}

// shortHolds are the holds between two moves of some size that are too short. One
// in which the figure is on its way, a landing between two steps, is no pose.
func (r *review) shortHolds(t track) []Beat {
	var list []Beat
	for i := 1; i+1 < len(t.beats); i++ {
		b := t.beats[i]
		if b.Kind != KindHold || b.Frames >= r.frames24(readFrames) {
			continue
		}
		if r.big(t.beats[i-1]) && r.big(t.beats[i+1]) && r.goes(t, t.beats[i-1].Start, t.beats[i+1].End) == 0 {
			list = append(list, b)
		}
	}
	return list
}

func (r *review) big(b Beat) bool {
	return b.Kind == KindMove && b.Size != nil && *b.Size >= r.at(readSize)
}
