package sound

import "math"

const (
	// syllableDip is how far the level falls between two syllables, in dB (de Jong &
	// Wempe 2009, "Praat script to detect syllable nuclei", from memory).
	syllableDip = 2.0
	// blowRise is how far the level rises for an accent that is no syllable, in dB:
	// thrice the swing of steady noise over a few hundredths of a second.
	blowRise = 9.0
	// onsetBelow is how far under its peak an accent sets in, in dB: half the power. In
	// a syllable that is the vowel's onset, where the beat of a word is heard.
	onsetBelow = 3.0
	// evened is how many looks on either side the level is averaged over: with 50 ms
	// the pulses of a low voice are gone and the shortest syllables remain.
	evened = 2
)

// findAccents finds the instants on which the sound sets in anew: where its level
// comes near each peak that a dip goes before. Within speech a peak must be voiced, so that
// the hiss of consonants is none.
func findAccents(t tracks, level []float32, v voice) []Accent {
	var list []Accent
	for _, p := range peaks(level) {
		rise := float64(level[p.top] - level[p.dip])
		a := Accent{Time: onset(level, p), Rise: rise, Level: float64(level[p.top])}
		a.Spoken = within(v.speech, float64(p.top)*hop/Rate)
		switch {
		case level[p.top] < v.threshold:
		case a.Spoken && !voiced(t.voice, p.top):
		case !a.Spoken && rise < blowRise:
		default:
			list = append(list, a)
		}
	}
	return belowLoudest(list)
}

// belowLoudest counts levels from that of the loudest accent.
func belowLoudest(list []Accent) []Accent {
	loudest := math.Inf(-1)
	for _, a := range list {
		loudest = math.Max(loudest, a.Level)
	}
	for i := range list {
		list[i].Level -= loudest
	}
	return list
}

// even averages a level over some looks on either side.
func even(level []float32) []float32 {
	out := make([]float32, len(level))
	for i := range out {
		from, to := max(0, i-evened), min(len(level), i+evened+1)
		sum := float32(0)
		for _, v := range level[from:to] {
			sum += v
		}
		out[i] = sum / float32(to-from)
	}
	return out
}

// A rise leads from a dip to the top that follows.
type rise struct{ dip, top int }

// peaks are the tops of a level with a fall of syllableDip on both sides. Before the
// sound begins, and after it ends, there is silence.
func peaks(level []float32) []rise {
	var list []rise
	var r rise
	rising := false
	for i, v := range level {
		switch {
		case !rising && v < level[r.dip]:
			r.dip = i
		case !rising && v-level[r.dip] >= syllableDip:
			rising, r.top = true, i
		case rising && v > level[r.top]:
			r.top = i
		case rising && level[r.top]-v >= syllableDip:
			list = append(list, r)
			rising, r.dip = false, i
		}
	}
	if rising {
		list = append(list, r)
	}
	return list
}

// onset is when a rise comes near its top, in seconds.
func onset(level []float32, r rise) float64 {
	i := r.dip
	for level[r.top]-level[i] > onsetBelow {
		i++
	}
	return float64(i) * hop / Rate
}

// voiced reports whether the sound is, at a look or right beside it.
func voiced(voice []float32, i int) bool {
	for _, v := range voice[max(0, i-evened):min(len(voice), i+evened+1)] {
		if v >= harmonic {
			return true
		}
	}
	return false
}

func within(spans []Span, t float64) bool {
	for _, s := range spans {
		if t >= s.Start && t < s.End {
			return true
		}
	}
	return false
}
