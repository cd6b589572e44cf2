package sound

import "slices"

const (
	// aboveFloor is how far a clip's own floor must be topped for something to be
	// heard, in dB: twice the swing of steady noise over a few hundredths of a second.
	aboveFloor = 9.0
	// nearPeak is how far under a clip's loud parts speech may fall and still be
	// heard, in dB: the soft ends of words lie 30 dB below the stressed vowels.
	nearPeak = 30.0
	// Shares of the time at which the floor and the loud parts are read.
	floorShare, loudShare = 0.1, 0.95
	// shortestPause is a pause and no mere closing of the lips, in seconds
	// (Goldman-Eisler 1968: under 0.25 s articulation, from memory).
	shortestPause = 0.25
	// shortestSpeech is the shortest word, in seconds (common practice, no source).
	shortestSpeech = 0.08
	// harmonic is from which harmonicity on a look is voiced, and voicedShare how
	// much of a stretch must be: over half of speech is voiced, noise hardly ever
	// (common practice, no source).
	harmonic    = 0.6
	voicedShare = 0.25
	// longestBreath is how long speech goes on without a pause, in seconds: people
	// breathe every few (common practice, no source). What goes on longer is music
	// or a crowd.
	longestBreath = 15.0
)

// A voice is where there is speech.
type voice struct {
	threshold float32 // level from which on something is heard
	speech    []Span
	pauses    []Span
}

// findSpeech finds speech over the clip's own floor. Steady sound without pauses is
// its own floor: nothing is said of it. level is that of the tracks, evened.
func findSpeech(t tracks, level []float32) voice {
	v := voice{threshold: hearing(t.level)}
	var syllables []int
	for _, p := range peaks(level) {
		if level[p.top] >= v.threshold && voiced(t.voice, p.top) {
			syllables = append(syllables, p.top)
		}
	}
	last := -1
	for _, run := range heard(t.level, v.threshold) {
		if !spoken(t, run, syllables) {
			continue
		}
		s := Span{float64(run[0]) * hop / Rate, float64(run[1]) * hop / Rate}
		if last >= 0 {
			v.pauses = append(v.pauses, Span{v.speech[last].End, s.Start})
		}
		v.speech = append(v.speech, s)
		last++
	}
	return v
}

// hearing is the level from which on something is heard.
func hearing(level []float32) float32 {
	if len(level) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(level))
	at := func(share float64) float32 { return sorted[int(share*float64(len(sorted)-1))] }
	return max(at(floorShare)+aboveFloor, at(loudShare)-nearPeak, faintest+aboveFloor)
}

// heard are the runs of looks, end excluded, at or over a level; closings of the
// lips within do not part them.
func heard(level []float32, threshold float32) [][2]int {
	const bridge, least = shortestPause * Rate / hop, shortestSpeech * Rate / hop
	var runs [][2]int
	for i, v := range level {
		if v < threshold {
			continue
		}
		if n := len(runs); n > 0 && float64(i-runs[n-1][1]) < bridge {
			runs[n-1][1] = i + 1
			continue
		}
		runs = append(runs, [2]int{i, i + 1})
	}
	return slices.DeleteFunc(runs, func(r [2]int) bool { return float64(r[1]-r[0]) < least })
}

// spoken reports whether a run may be speech: voiced enough, with a syllable at
// least, and no longer than a breath.
func spoken(t tracks, run [2]int, syllables []int) bool {
	if float64(run[1]-run[0])*hop/Rate > longestBreath {
		return false
	}
	if i, _ := slices.BinarySearch(syllables, run[0]); i == len(syllables) || syllables[i] >= run[1] {
		return false
	}
	voiced := 0
	for _, v := range t.voice[run[0]:run[1]] {
		if v >= harmonic {
			voiced++
		}
	}
	return float64(voiced) >= voicedShare*float64(run[1]-run[0])
}
