package sheet

import (
	"fmt"
	"math"
)

const (
	// popSeconds is how long a foot that pops is off the ground: two frames at 24
	// a second.
	popSeconds = 2.0 / 24
	// popSpot is how far apart, in figure heights, its spots before and after may
	// be: under SlideShare no foot went anywhere.
	popSpot = SlideShare
)

// popNotes finds contacts that break for a frame or two at one spot.
func (s *Sheet) popNotes() []Note {
	var notes []Note
	for _, stands := range s.standsByFigure() {
		for _, a := range stands {
			for _, b := range stands {
				if n, ok := s.pop(stands, a, b); ok {
					notes = append(notes, n)
				}
			}
		}
	}
	return notes
}

func (s *Sheet) pop(stands []Contact, a, b Contact) (Note, bool) {
	gap := b.Start - a.End - 1
	if gap < 1 || float64(gap) > math.Round(popSeconds*s.Clip.FPS.Float()) {
		return Note{}, false
	}
	off := s.spotShare(a, b)
	if off > popSpot {
		return Note{}, false
	}
	for _, c := range stands { // something else stands there all the while
		if c.Start <= a.End && c.End >= b.Start && s.spotShare(c, b) <= popSpot {
			return Note{}, false
		}
	}
	for _, f := range s.Flights { // the whole figure was off the ground
		if f.Figure == a.Figure && f.Start <= b.Start && f.End > a.End {
			return Note{}, false
		}
	}
	return Note{
		Kind: "foot-pop", Start: a.End + 1, End: b.Start - 1, Weight: WeightLook,
		Text: fmt.Sprintf("%sfoot pops off the ground for %s and is back at the same spot", s.whose(a.Figure), count(gap, "frame")),
		Measured: map[string]any{
			"contacts": []int{a.ID, b.ID}, "frames": gap, "apart_share": round(off, shareDigits),
			"pop_seconds_most": round(popSeconds, shareDigits), "apart_share_most": popSpot,
		},
	}, true
}

// spotShare is how far apart two contacts of a figure lie, figure heights.
func (s *Sheet) spotShare(a, b Contact) float64 {
	dx, dy := s.apart(a, b)
	return math.Hypot(dx, dy) / s.Figures[a.Figure-1].Height
}
