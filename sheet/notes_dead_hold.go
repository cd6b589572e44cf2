package sheet

import (
	"fmt"
	"slices"
)

var deadHoldRule = &Rule{
	Kind:       "dead-hold",
	Measures:   "how long a figure is frozen, without any visible change; sooner told where the clip's other holds are alive",
	Weights:    []string{WeightLook, WeightFix},
	Thresholds: []*Threshold{deadSeconds, deadAliveSeconds, deadAliveShare, deadFix, deadGrain},
	Gauge:      Gauge{Names: []string{"seconds"}},
	find:       (*review).deadHoldNotes,
}

var (
	deadSeconds = &Threshold{
		Name: "frozen_seconds", Unit: inSeconds, Default: 2, Min: 0.1, Max: 600,
		Reason: "drawn figures may freeze for a second or more; after two the picture has stopped", Source: practice,
	}
	deadAliveSeconds = &Threshold{
		Name: "frozen_seconds_alive", Unit: inSeconds, Default: 1.5, Min: 0.1, Max: 600,
		Reason: "where other holds are kept moving, one that freezes stands out: a computer-animated figure looks dead after about half a second, and three times that is no short rest",
		Source: practice,
	}
	deadAliveShare = &Threshold{
		Name: "alive_share_least", Unit: inShare, Default: 0.5, Min: 0, Max: 1,
		Reason: "so much of all other held frames must be alive for that", Source: practice,
	}
	deadFix = &Threshold{
		Name: "fix_factor", Unit: inFactor, Default: 2, Min: 1, Max: 100,
		Reason: "a hold that is this many times too long is a fix", Source: practice,
	}
	deadGrain = &Threshold{
		Name: "grain_levels_most", Unit: "levels of 255", Default: 1, Min: 0, Max: 255,
		Reason: "in a picture whose still parts differ by more from frame to frame, a breath drowns in the grain and nothing is said", Source: accuracy,
	}
)

// grainSetting is the setting that says how much the still parts of a clip's
// picture differ from frame to frame, levels.
const grainSetting = "grain_levels_median"

// deadHoldNotes finds figures that are frozen for long. In stepped poses that is
// how the pass is made.
func (r *review) deadHoldNotes() []Note {
	var notes []Note
	if grain, ok := r.Settings[grainSetting].(float64); ok && grain > r.at(deadGrain) {
		return nil
	}
	for _, t := range r.tracks() {
		for _, b := range t.beats {
			if b.Hold != HoldFrozen || !r.acts(t) || r.stepped(t, b) || r.pops(b) {
				continue
			}
			limit, alive := r.at(deadSeconds), r.aliveShare(b)
			if alive >= r.at(deadAliveShare) {
				limit = min(limit, r.at(deadAliveSeconds))
			}
			if seconds := r.Clip.length(b.Frames); seconds >= limit {
				notes = append(notes, r.deadHoldNote(t, b, alive, seconds >= r.at(deadFix)*limit))
			}
		}
	}
	return notes
}

func (r *review) deadHoldNote(t track, b Beat, alive float64, fix bool) Note {
	n := Note{
		Start: b.Start, End: b.End, Weight: WeightLook,
		Text: fmt.Sprintf("%sdead for %.1f s: nothing moves at all; keep the hold alive, or shorten it",
			r.of(t.figure), r.Clip.length(b.Frames)),
		Measured: map[string]any{
			"beat": b.ID, "frames": b.Frames, "seconds": round(r.Clip.length(b.Frames), shareDigits),
			"alive_share_elsewhere": round(alive, shareDigits),
		},
	}
	if fix {
		n.Weight = WeightFix
	}
	return n
}

// pops reports whether something pops within a beat: then not nothing moves.
func (r *review) pops(b Beat) bool {
	return slices.ContainsFunc(r.Pops, func(p Pop) bool {
		return p.Shot == b.Shot && p.Start <= b.End && p.End >= b.Start
	})
}

// aliveShare is the share of all held frames but those of one hold that are
// alive; 0 where those last less than a hold may be frozen.
func (r *review) aliveShare(but Beat) float64 {
	alive, all := 0, 0
	for _, b := range r.Leading() {
		if b.Kind != KindHold || b.ID == but.ID {
			continue
		}
		all += b.Frames
		if b.Hold == HoldMoving {
			alive += b.Frames
		}
	}
	if all == 0 || r.Clip.length(alive) < r.at(deadAliveSeconds) {
		return 0
	}
	return float64(alive) / float64(all)
}

// stepped reports whether a beat lies among poses that replace each other.
func (r *review) stepped(t track, b Beat) bool {
	for _, e := range r.Exposure {
		if e.Pattern == PatternStepped && e.Shot == t.shot && e.Figure == t.figure && e.Start <= b.End && e.End >= b.Start {
			return true
		}
	}
	return false
}
