package sheet

import (
	"maps"
	"math"
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
		"sound_meet_slack_s": meetSlack, "sound_meet_least": meetLeast, "sound_meet_share": meetShare, "sound_meet_rival_share": meetRival,
	})
}

// standsOut reports whether an accent is louder than the syllables near it; of equal
// ones it is the first. One with none near stands out by itself.
func (d *Sound) standsOut(i int) bool {
	a := d.Accents[i]
	sum, n := 0.0, 0.0
	for k, b := range d.Accents {
		if k == i || !b.Spoken || math.Abs(b.Seconds-a.Seconds) > stressSeconds {
			continue
		}
		if b.Level > a.Level || b.Level == a.Level && k < i {
			return false
		}
		sum, n = sum+b.Level, n+1
	}
	return n == 0 || a.Level >= sum/n+stressRise
}

// nearestMove returns the move of a frame's shot whose peak is nearest to it, the
// earlier of equals; nil where the shot has none.
func (s *Sheet) nearestMove(frame int) *Beat {
	shot := s.shotAt(frame)
	var best *Beat
	for i := range s.Beats {
		b := &s.Beats[i]
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

// A Meeting is how blows in the sound lie to what lands in the picture, where so many
// of both coincide at one offset and no other that it is no chance.
type Meeting struct {
	Offset float64 `json:"offset_s"` // how much later than the picture the sound is
	Landed int     `json:"landed"`   // impacts and landings in the picture
	Met    int     `json:"met"`      // those that a blow meets
}

const (
	// meetReach is how far off a blow may be and belong to what lands, in seconds:
	// over twice what ITU-R BT.1359 finds acceptable.
	meetReach = 0.5
	// meetSlack is how far off the common offset one may be, in seconds: half a frame at
	// 24 fps on the side of the picture, and a hundredth of a second of the sound.
	meetSlack = 0.03
	// meetLeast is how many must meet, and meetShare of all that lands and of all
	// blows meanwhile: fewer meet by chance.
	meetLeast = 3
	meetShare = 0.7
	// meetRival is the share of the meetings that another offset may have: a drum
	// that beats evenly fits at several.
	meetRival = 0.6
)

// meeting finds the offset of the sound against what lands; nil where none is clear.
func (s *Sheet) meeting() *Meeting {
	landed, blows := s.landings(), s.blows()
	offsets := []float64{}
	for _, l := range landed {
		for _, b := range blows {
			if d := b - l; math.Abs(d) <= meetReach {
				offsets = append(offsets, d)
			}
		}
	}
	slices.Sort(offsets)
	best, met := 0.0, 0
	for _, d := range offsets {
		if n := meet(landed, blows, d); n > met {
			best, met = d, n
		}
	}
	meanwhile := 0
	for _, b := range blows {
		if len(landed) > 0 && b-best >= landed[0]-meetSlack && b-best <= landed[len(landed)-1]+meetSlack {
			meanwhile++
		}
	}
	if met < meetLeast || float64(met) < meetShare*float64(max(len(landed), meanwhile)) {
		return nil
	}
	for _, d := range offsets {
		if math.Abs(d-best) > 2*meetSlack && float64(meet(landed, blows, d)) > meetRival*float64(met) {
			return nil
		}
	}
	return &Meeting{Offset: commonOffset(landed, blows, best), Landed: len(landed), Met: met}
}

// meet is how many of the landings have a blow at an offset.
func meet(landed, blows []float64, offset float64) int {
	n := 0
	for _, l := range landed {
		if _, ok := nearest(blows, l+offset); ok {
			n++
		}
	}
	return n
}

// nearest returns the time nearest to t, if it is within meetSlack.
func nearest(times []float64, t float64) (float64, bool) {
	best := math.Inf(1)
	for _, v := range times {
		if math.Abs(v-t) < math.Abs(best-t) {
			best = v
		}
	}
	return best, math.Abs(best-t) <= meetSlack
}

// commonOffset is the median offset of those that meet near one.
func commonOffset(landed, blows []float64, about float64) float64 {
	var list []float64
	for _, l := range landed {
		if b, ok := nearest(blows, l+about); ok {
			list = append(list, b-l)
		}
	}
	return middle(list)
}

// landings are the times at which something visibly lands, in seconds from the first
// frame measured: impacts of balls, ends of hops.
func (s *Sheet) landings() []float64 {
	fps := s.Clip.FPS.Float()
	var list []float64
	for _, p := range s.Impacts {
		list = append(list, (p.Frame-float64(s.Clip.FirstFrame))/fps)
	}
	for _, f := range s.Flights {
		if s.IsHop(f) {
			// Contact comes back between the last frame in the air and the next.
			list = append(list, (float64(f.End-s.Clip.FirstFrame)+0.5)/fps)
		}
	}
	slices.Sort(list)
	return list
}

// blows are the times of the accents that are no speech.
func (s *Sheet) blows() []float64 {
	var list []float64
	for _, a := range s.Sound.Accents {
		if !a.Spoken {
			list = append(list, a.Seconds)
		}
	}
	return list
}
