// Package sound measures what is heard beside the pictures: how loud each frame
// is, where there is speech and where it pauses, and on which instants the sound
// is accented. Samples come in a block at a time; a few numbers a hundredth of a
// second are kept.
package sound

import "holdfast/motion/sound/internal/biquad"

// Rate is how many samples a second are listened to, Channels how many values each has.
const (
	Rate     = 48000
	Channels = 2
)

// A Listener measures a sound that begins with the first frame.
type Listener struct {
	frames   *meter
	blocks   *meter // of BS.1770's gating, a tenth of a second each
	weight   [Channels]biquad.Chain
	spectrum *spectrum
}

// NewListener listens beside a clip of some frames at a rate per second.
func NewListener(fps float64, frames int) *Listener {
	l := &Listener{
		frames: newMeter(Rate/fps, frames), blocks: newMeter(Rate*blockStep, 0), spectrum: newSpectrum(),
	}
	for c := range l.weight {
		l.weight[c] = kWeighting()
	}
	return l
}

// Write takes the next samples, left and right in turn, full scale at 1.
func (l *Listener) Write(samples []float32) error {
	for i := 0; i+1 < len(samples); i += Channels {
		left, right := float64(samples[i]), float64(samples[i+1])
		a, b := l.weight[0].Filter(left), l.weight[1].Filter(right)
		power := a*a + b*b // channels add up at equal weight: BS.1770, front left and right
		l.frames.add(power)
		l.blocks.add(power)
		l.spectrum.add((left + right) / Channels)
	}
	return nil
}

// A Span is a stretch in seconds from the first frame's beginning.
type Span struct{ Start, End float64 }

// An Accent is an instant on which the sound sets in anew: a syllable, a blow.
type Accent struct {
	Time   float64 // seconds from the first frame's beginning
	Rise   float64 // how far the level rises to it, dB
	Level  float64 // of its peak, dB; 0 for the loudest one
	Spoken bool    // it is a syllable of speech
}

// A Result is what was heard.
type Result struct {
	Loudness float64   // of the whole, LUFS; Silent where nothing passes the gate
	Frames   []float64 // loudness of each frame's own time, LUFS; Silent where there is none
	Speech   []Span
	Pauses   []Span // between stretches of speech
	Accents  []Accent
	Settings map[string]any // every threshold
}

// Result returns what was heard so far.
func (l *Listener) Result() *Result {
	tracks := l.spectrum.finish()
	level := even(tracks.level)
	voice := findSpeech(tracks, level)
	return &Result{
		Loudness: integrated(l.blocks.powers()), Frames: l.frames.loudness(),
		Speech: voice.speech, Pauses: voice.pauses, Accents: findAccents(tracks, level, voice),
		Settings: settings(),
	}
}

func settings() map[string]any {
	return map[string]any{
		"sound_syllable_dip_db": syllableDip, "sound_blow_rise_db": blowRise, "sound_onset_below_db": onsetBelow,
		"sound_near_peak_db": nearPeak, "sound_above_floor_db": aboveFloor, "sound_pause_s": shortestPause, "sound_speech_s": shortestSpeech,
		"sound_breath_s": longestBreath, "sound_voiced_share": voicedShare, "sound_harmonicity": harmonic,
	}
}
