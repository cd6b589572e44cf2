package scene

import (
	"math"
	"math/rand/v2"
	"slices"
)

// A Voice is sound like speech whose syllables are known: pulses of a throat shaped by
// formants, hisses and closed lips between the vowels, pauses between phrases.
type Voice struct {
	Syllables []Syllable
	Pauses    [][2]float64 // from the end of one phrase to the first sound of the next, seconds
	Seconds   float64
	seed      uint64
}

// A Syllable is one vowel, and what leads into it.
type Syllable struct {
	Onset, End float64 // of the vowel, seconds
	Level      float64 // amplitude
	Pitch      float64 // Hz at its onset; it falls by a sixth
	vowel      [3]float64
	lead       float64 // seconds that the consonant before the vowel lasts
	hiss       float64 // amplitude of it as noise
	murmur     float64 // amplitude of it as a voice through closed lips
}

// vowels are formants of a, e, i, o, u, in Hz (Peterson & Barney 1952, rounded, from
// memory).
var vowels = [][3]float64{{730, 1090, 2440}, {530, 1840, 2480}, {270, 2290, 3010}, {570, 840, 2410}, {300, 870, 2240}}

// Speak makes up a voice of some phrases, always the same for a seed.
func Speak(seed uint64, phrases int) *Voice {
	r := rand.New(rand.NewPCG(seed, 48))
	v := &Voice{seed: seed}
	pitch := 90 + 130*r.Float64()
	t := 0.3 + 0.4*r.Float64()
	for p := range phrases {
		for k := range 3 + r.IntN(7) {
			s := Syllable{
				Level: 0.12 * math.Pow(10, -10*r.Float64()/20), vowel: vowels[r.IntN(len(vowels))],
				lead: 0.05 + 0.05*r.Float64(), Pitch: pitch * (0.85 + 0.3*r.Float64()),
			}
			switch r.IntN(3) {
			case 0:
				s.hiss = 0.03 * s.Level / 0.12
			case 1:
				s.murmur = 0.1 * s.Level
			}
			if k == 0 && p > 0 {
				v.Pauses = append(v.Pauses, [2]float64{v.Syllables[len(v.Syllables)-1].End, t})
			}
			s.Onset = t + s.lead
			s.End = s.Onset + 0.09 + 0.13*r.Float64()
			t = s.End
			v.Syllables = append(v.Syllables, s)
		}
		t += 0.35 + 0.6*r.Float64()
	}
	v.Seconds = t
	return v
}

// Recite makes up a voice whose stressed syllables set in at given times, in order and
// half a second or more apart, with softer ones between them, and silence over the
// pauses.
func Recite(seed uint64, seconds float64, stresses []float64, pauses [][2]float64) *Voice {
	const stressed, soft, apart = 0.12, 0.05, 0.21
	r := rand.New(rand.NewPCG(seed, 50))
	v := &Voice{seed: seed, Seconds: seconds, Pauses: pauses}
	say := func(onset, level float64) {
		v.Syllables = append(v.Syllables, Syllable{
			Onset: onset, End: onset + 0.16, Level: level, Pitch: 110 + 20*r.Float64(), lead: 0.04, murmur: 0.1 * level,
			vowel: vowels[r.IntN(len(vowels))],
		})
	}
	t := apart
	for _, next := range append(slices.Clone(stresses), seconds) {
		for ; t < next-apart; t += apart {
			if !silent(pauses, t) {
				say(t, soft)
			}
		}
		if next < seconds {
			say(next, stressed)
		}
		t = next + apart
	}
	return v
}

// silent reports whether a syllable that sets in at a time would reach into a pause.
func silent(pauses [][2]float64, t float64) bool {
	return slices.ContainsFunc(pauses, func(p [2]float64) bool { return t+0.16 > p[0] && t-0.04 < p[1] })
}

// Onsets are those of the vowels, in seconds.
func (v *Voice) Onsets() []float64 {
	list := make([]float64, len(v.Syllables))
	for i, s := range v.Syllables {
		list[i] = s.Onset
	}
	return list
}

// swell is how long a vowel takes to come up, and to go, in seconds.
const swell = 0.02

// Samples speaks: one channel at a rate, full scale at 1.
func (v *Voice) Samples(rate int) []float32 {
	r := rand.New(rand.NewPCG(v.seed, 49))
	out := make([]float32, int(math.Ceil(v.Seconds*float64(rate))))
	for _, s := range v.Syllables {
		s.speak(out, float64(rate), r)
	}
	return out
}

// speak adds one syllable.
func (s Syllable) speak(out []float32, rate float64, r *rand.Rand) {
	mouth := [3]*resonance{}
	for i, f := range s.vowel {
		mouth[i] = newResonance(f, 60+0.05*f, rate)
	}
	lips := newResonance(250, 80, rate)
	phase := 0.0
	for i := int((s.Onset - s.lead) * rate); i < min(len(out), int(s.End*rate)); i++ {
		t := float64(i) / rate
		phase += s.Pitch * (1 - (t-s.Onset)/(s.End-s.Onset)/6) / rate
		pulse := 0.0
		if phase >= 1 {
			phase--
			pulse = 1
		}
		vowel := 0.0
		for k, m := range mouth {
			vowel += m.filter(pulse) / float64(k+1)
		}
		murmur := lips.filter(pulse)
		open := math.Min(1, math.Min((t-s.Onset)/swell, (s.End-t)/swell))
		if open > 0 {
			out[i] += float32(s.Level * open * vowel)
			continue
		}
		shut := math.Min(1, math.Min((t-s.Onset+s.lead)/swell, (s.Onset-t)/swell))
		out[i] += float32(shut * (s.murmur*murmur + s.hiss*r.NormFloat64()))
	}
}

// Blows are short bursts of noise that set in at given times: one channel at a rate.
func Blows(seed uint64, rate int, seconds float64, times []float64) []float32 {
	const decay = 0.03 // s
	r := rand.New(rand.NewPCG(seed, 51))
	out := make([]float32, int(math.Ceil(seconds*float64(rate))))
	for _, at := range times {
		for i := max(0, int(math.Ceil(at*float64(rate)))); i < len(out); i++ {
			d := float64(i)/float64(rate) - at
			if d > 10*decay {
				break
			}
			out[i] += float32(0.3 * math.Exp(-d/decay) * r.NormFloat64())
		}
	}
	return out
}

// A resonance rings at a frequency: two poles, as loud for pulses whatever the rate.
type resonance struct{ a, b, gain, y1, y2 float64 }

func newResonance(frequency, width, rate float64) *resonance {
	radius := math.Exp(-math.Pi * width / rate)
	return &resonance{
		a: 2 * radius * math.Cos(2*math.Pi*frequency/rate), b: -radius * radius,
		gain: 2 * math.Sin(2*math.Pi*frequency/rate),
	}
}

func (r *resonance) filter(x float64) float64 {
	y := r.gain*x + r.a*r.y1 + r.b*r.y2
	r.y1, r.y2 = y, r.y1
	return y
}
