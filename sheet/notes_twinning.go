package sheet

import (
	"fmt"
	"math"
)

var twinningRule = &Rule{
	Kind:       "twinning",
	Measures:   "two marked parts that do the same at the same time, mirrored or parallel, where the figure neither walks nor travels; with nothing marked, both sides of a figure that mirror each other",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{twinOffset, twinLikeness},
	Gauge:      Gauge{Names: []string{"likeness"}},
	find:       (*review).twinningNotes,
}

var (
	twinOffset = &Threshold{
		Name: "twin_offset_most", Unit: inFrames24, Default: 2, Min: 0.1, Max: 8,
		Reason: "parts that set in two frames apart or more are read one after the other", Source: practice,
	}
	twinLikeness = &Threshold{
		Name: "twin_likeness_least", Unit: inShare, Default: 0.9, Min: 0.85, Max: 1,
		Reason: "the correlation of both ways: under it they go different ways", Source: practice,
	}
)

// walkStands is how many stands that begin within a stretch make it a walk.
const walkStands = 2

// twinningNotes finds parts that are twins.
func (r *review) twinningNotes() []Note {
	var notes []Note
	for _, t := range r.Twins {
		most := r.at(twinOffset) * r.Clip.FPS.Float() / 24
		if r.halves(t) && r.bounces(track{shot: t.Shot}) {
			continue // what squashes and stretches has no arms
		}
		if math.Abs(t.Offset) >= most || t.Likeness < r.at(twinLikeness) || r.stands(t) >= walkStands {
			continue
		}
		together := "at the same time"
		if off := math.Abs(t.Offset); off >= 0.5 {
			together = fmt.Sprintf("only %.1f frames apart", off)
		}
		who := Visible(t.First) + " and " + Visible(t.Second)
		if r.halves(t) {
			who = "the left and the right side of the figure"
		}
		notes = append(notes, Note{
			Start: t.Start, End: t.End, Weight: WeightLook,
			Text:     fmt.Sprintf("%s are twins: they do the same, %s, %s; let one lead or do less", who, t.Way, together),
			Measured: map[string]any{"offset_frames": t.Offset, "likeness": t.Likeness, "way": t.Way},
		})
	}
	return notes
}

// stands is how many stands begin while parts are twins.
func (r *review) stands(t Twin) int {
	n := 0
	for _, c := range r.Contacts {
		if c.Shot == t.Shot && c.Start > t.Start && c.Start <= t.End {
			n++
		}
	}
	return n
}
