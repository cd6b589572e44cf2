package sheet

import (
	"cmp"
	"maps"
	"slices"
)

// A stressed syllable is the loudest for stressSeconds on both sides, two syllables of
// slow speech, and stressRise dB louder than those around it are on average: two can
// just be told apart in running speech (common practice, no source).
const (
	stressSeconds = 0.5
	stressRise    = 2.0
)

// sync derives how accents and moves lie to each other.
func (s *Sheet) sync() {
	if s.Sound == nil {
		return
	}
	for i := range s.Sound.Accents {
		a := &s.Sound.Accents[i]
		a.Stressed = a.Spoken && s.Sound.standsOut(i)
		a.Beat, a.Lead = 0, nil
		if b := s.nearestMove(a.Frame); b != nil {
			lead := a.Frame - *b.Peak
			a.Beat, a.Lead = b.ID, &lead
		}
	}
	s.Sound.Meeting = s.meeting()
	maps.Copy(s.Settings, map[string]any{
		"sound_stress_s": stressSeconds, "sound_stress_db": stressRise, "sound_meet_reach_s": meetReach,
		"sound_meet_frames": meetFrames, "sound_meet_s": meetSeconds, "sound_meet_least": meetLeast, "sound_meet_share": meetShare, "sound_meet_rival_share": meetRival,
	})
}

// standsOut reports whether an accent is louder than the syllables near it; of equal
// ones it is the first. One with none near stands out by itself.
func (d *Sound) standsOut(i int) bool {
	a := d.Accents[i]
	sum, n := 0.0, 0.0
	for k := d.firstFrom(a.Seconds - stressSeconds); k < len(d.Accents) && d.Accents[k].Seconds <= a.Seconds+stressSeconds; k++ {
		b := d.Accents[k]
		if k == i || !b.Spoken {
			continue
		}
		if b.Level > a.Level || b.Level == a.Level && k < i {
			return false
		}
		sum, n = sum+b.Level, n+1
	}
	return n == 0 || a.Level >= sum/n+stressRise
}

// firstFrom is the first accent at a time or after it.
func (d *Sound) firstFrom(seconds float64) int {
	i, _ := slices.BinarySearchFunc(d.Accents, seconds, func(a Accent, t float64) int { return cmp.Compare(a.Seconds, t) })
	return i
}

// nearestMove returns the move of a frame's shot whose peak is nearest to it, the
// earlier of equals; nil where the shot has none.
func (s *Sheet) nearestMove(frame int) *Beat {
	shot := s.shotAt(frame)
	var best *Beat
	leading := s.Leading()
	for i := range leading {
		b := &leading[i]
		if b.Kind != KindMove || b.Peak == nil || b.Shot != shot {
			continue
		}
		if best == nil || away(*b.Peak, frame) < away(*best.Peak, frame) {
			best = b
		}
	}
	return best
}

func away(a, b int) int { return max(a-b, b-a) }

// shotAt returns the id of the shot that a frame is in.
func (s *Sheet) shotAt(frame int) int {
	for _, shot := range s.Shots {
		if frame >= shot.Start && frame <= shot.End {
			return shot.ID
		}
	}
	return 0
}

// syllables counts those that set in between two frames.
func (d *Sound) syllables(start, end int) int {
	n := 0
	for _, a := range d.Accents {
		if a.Spoken && a.Frame >= start && a.Frame <= end {
			n++
		}
	}
	return n
}
