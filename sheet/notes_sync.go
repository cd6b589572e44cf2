package sheet

import (
	"fmt"
	"math"
)

var soundOffsetRule = &Rule{
	Kind:       "sound-offset",
	Measures:   "how far the whole sound lies from the picture, where blows and what lands clearly belong together",
	Weights:    []string{WeightLook, WeightFix},
	Thresholds: []*Threshold{earlyNoticed, lateNoticed, earlyTolerated, lateTolerated},
	Gauge:      Gauge{Names: []string{"offset_seconds"}},
	find:       (*review).soundOffsetNotes,
}

const relativeTiming = "ITU-R BT.1359, as quoted"

var (
	earlyNoticed = &Threshold{
		Name: "early_noticed_seconds", Unit: inSeconds, Default: 0.045, Min: 0.005, Max: 2,
		Reason: "people notice sound that is early by more", Source: relativeTiming,
	}
	lateNoticed = &Threshold{
		Name: "late_noticed_seconds", Unit: inSeconds, Default: 0.125, Min: 0.005, Max: 2,
		Reason: "people notice sound that is late by more; they are used to sound that takes its time", Source: relativeTiming,
	}
	earlyTolerated = &Threshold{
		Name: "early_fix_seconds", Unit: inSeconds, Default: 0.09, Min: 0.005, Max: 2,
		Reason: "sound that is early by more is not tolerated", Source: relativeTiming,
	}
	lateTolerated = &Threshold{
		Name: "late_fix_seconds", Unit: inSeconds, Default: 0.185, Min: 0.005, Max: 2,
		Reason: "sound that is late by more is not tolerated", Source: relativeTiming,
	}
)

// soundOffsetNotes says when the whole sound is early or late.
func (r *review) soundOffsetNotes() []Note {
	if r.Sound == nil || r.Sound.Meeting == nil {
		return nil
	}
	m := *r.Sound.Meeting
	notice, fix, word, other := r.at(lateNoticed), r.at(lateTolerated), "late", "earlier"
	if m.Offset < 0 {
		notice, fix, word, other = r.at(earlyNoticed), r.at(earlyTolerated), "early", "later"
	}
	size := math.Abs(m.Offset)
	if size <= notice {
		return nil
	}
	n := Note{
		Start: r.Clip.FirstFrame, End: r.Clip.Last(), Weight: WeightLook,
		Text: fmt.Sprintf("the sound is %s by %.2f s (%.1f frames) at %d of %d landings: set it %s",
			word, size, size*r.Clip.FPS.Float(), m.Met, m.Landed, other),
		Measured: map[string]any{"offset_seconds": round(m.Offset, frameDigits), "landed": m.Landed, "met": m.Met},
	}
	if size > fix {
		n.Weight = WeightFix
	}
	return []Note{n}
}
