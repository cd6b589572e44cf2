package sheet

import (
	"fmt"
	"slices"
)

var lateGesturesRule = &Rule{
	Kind:       "late-gestures",
	Measures:   "whether a figure's moves peak after the stressed syllables that they belong to, all through the clip",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{lateLeast, lateFrames, lateShare, lateSpread, lateReach},
	Gauge:      Gauge{Names: []string{"late_by_frames"}},
	find:       (*review).lateGestureNotes,
}

var (
	lateLeast = &Threshold{
		Name: "gestures_least", Unit: inCount, Default: 4, Min: 3, Max: 1000, Whole: true,
		Reason: "so many moves near a stressed syllable; fewer lie after theirs by chance", Source: accuracy,
	}
	lateFrames = &Threshold{
		Name: "late_frames_least", Unit: inFrames24, Default: 3, Min: 1, Max: 24,
		Reason: "a gesture's stroke comes before its word or with it, so three frames after are two more than measuring can be off",
		Source: "phonological synchrony, McNeill 1992, from memory; the number " + practice,
	}
	lateShare = &Threshold{
		Name: "late_share_least", Unit: inShare, Default: 0.9, Min: 0.5, Max: 1,
		Reason: "share of those moves that must be late: one of ten may belong to another word", Source: practice,
	}
	lateSpread = &Threshold{
		Name: "spread_frames_most", Unit: inFrames24, Default: 3, Min: 1, Max: 48,
		Reason: "between the quarters of the lags: moves that belong to no word lie anywhere", Source: accuracy,
	}
	lateReach = &Threshold{
		Name: "reach_frames_most", Unit: inFrames24, Default: 10, Min: 2, Max: 48,
		Reason: "farther from its nearest stressed syllable a move belongs to none", Source: practice,
	}
)

// lateGestureNotes finds figures whose moves lag behind the words.
func (r *review) lateGestureNotes() []Note {
	if r.Sound == nil {
		return nil
	}
	var notes []Note
	for _, t := range r.tracks() {
		lags, first, last := r.lags(t)
		if len(lags) < r.whole(lateLeast) || !r.acts(t) || 2*r.goes(t, t.first, t.last) > len(lags) {
			continue
		}
		slices.Sort(lags)
		late := 0
		for _, l := range lags {
			if l > 0 {
				late++
			}
		}
		by, spread := lags[len(lags)/2], lags[3*len(lags)/4]-lags[len(lags)/4]
		if by < r.frames24(lateFrames) || spread > r.frames24(lateSpread) || float64(late) < r.at(lateShare)*float64(len(lags)) {
			continue
		}
		notes = append(notes, Note{
			Start: first, End: last, Weight: WeightLook,
			Text: fmt.Sprintf("%sthe gestures come late on the words: %d of %d moves peak after the stressed syllable, by %d frames in the middle; lead the words by a few",
				r.of(t.figure), late, len(lags), by),
			Measured: map[string]any{"gestures": len(lags), "late": late, "late_by_frames": by, "spread_frames": spread},
		})
	}
	return notes
}

// lags are how many frames after the nearest stressed syllable each move of a track
// peaks, with the frames that all of them span.
func (r *review) lags(t track) (lags []int, first, last int) {
	for _, b := range t.moves() {
		lag, ok := r.lag(*b.Peak)
		if !ok {
			continue
		}
		if len(lags) == 0 {
			first = b.Start
		}
		lags, last = append(lags, lag), b.End
	}
	return lags, first, last
}

func (r *review) lag(peak int) (int, bool) {
	best, found := 0, false
	for _, a := range r.Sound.Accents {
		d := peak - a.Frame
		if a.Stressed && max(d, -d) <= r.frames24(lateReach) && (!found || max(d, -d) < max(best, -best)) {
			best, found = d, true
		}
	}
	return best, found
}
