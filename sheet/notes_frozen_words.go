package sheet

import "fmt"

var frozenWordsRule = &Rule{
	Kind:       "frozen-over-words",
	Measures:   "holds without any life while words are spoken, by a figure that is alive with the other words",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{frozenSyllables, frozenFrames, wordsAlive},
	Gauge:      Gauge{Names: []string{"syllables"}},
	find:       (*review).frozenWordsNotes,
}

var (
	frozenSyllables = &Threshold{
		Name: "syllables_least", Unit: inCount, Default: 4, Min: 1, Max: 1000, Whole: true,
		Reason: "a word or two under a held pose are an accent, a phrase is not", Source: practice,
	}
	frozenFrames = &Threshold{
		Name: "frozen_frames_least", Unit: inFrames24, Default: 24, Min: 4, Max: 240,
		Reason: "a body may keep a pose for a few words; for a second and a phrase it looks dead", Source: practice,
	}
	wordsAlive = &Threshold{
		Name: "alive_share_least", Unit: inShare, Default: 0.75, Min: 0, Max: 1,
		Reason: "share of the spoken frames elsewhere on which something moves: where it is less, somebody unseen speaks", Source: practice,
	}
)

// frozenWordsNotes finds frozen holds that run over words.
func (r *review) frozenWordsNotes() []Note {
	if r.Sound == nil {
		return nil
	}
	if grain, ok := r.Settings[grainSetting].(float64); ok && grain > r.at(deadGrain) {
		return nil
	}
	var notes []Note
	for _, t := range r.tracks() {
		for _, b := range t.beats {
			if b.Hold != HoldFrozen || b.Frames < r.frames24(frozenFrames) || !r.acts(t) || r.stepped(t, b) || r.pops(b) {
				continue
			}
			n, alive := r.Sound.syllables(b.Start, b.End), r.aliveWithWords(t, b)
			if n < r.whole(frozenSyllables) || alive < r.at(wordsAlive) {
				continue
			}
			notes = append(notes, Note{
				Start: b.Start, End: b.End, Weight: WeightLook,
				Text: fmt.Sprintf("%sfrozen while %d syllables are spoken: let the face or the breath go with the words",
					r.of(t.figure), n),
				Measured: map[string]any{"beat": b.ID, "frames": b.Frames, "syllables": n, "alive_share_elsewhere": round(alive, shareDigits)},
			})
		}
	}
	return notes
}

// aliveWithWords is the share of a track's spoken frames, those of one beat left out, on
// which something moves; 0 where there are none.
func (r *review) aliveWithWords(t track, but Beat) float64 {
	alive, all := 0, 0
	for _, b := range t.beats {
		if b.ID == but.ID {
			continue
		}
		for _, v := range r.Sound.Speech {
			n := max(0, min(v.End, b.End)-max(v.Start, b.Start)+1)
			all += n
			if b.Hold != HoldFrozen {
				alive += n
			}
		}
	}
	if all == 0 {
		return 0
	}
	return float64(alive) / float64(all)
}
