package sound

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

// signal makes stereo samples of a function of time.
func signal(seconds float64, at func(t float64) float64) []float32 {
	s := make([]float32, 0, int(seconds*Rate)*Channels)
	for i := range int(seconds * Rate) {
		v := float32(at(float64(i) / Rate))
		s = append(s, v, v)
	}
	return s
}

func hear(t *testing.T, fps float64, samples []float32) *Result {
	t.Helper()
	l := NewListener(fps, int(math.Ceil(float64(len(samples))/Channels/Rate*fps)))
	if err := l.Write(samples); err != nil {
		t.Fatal(err)
	}
	return l.Result()
}

// sine is 1 kHz at a level in dB of full scale.
func sine(level float64) func(float64) float64 {
	a := math.Pow(10, level/20)
	return func(t float64) float64 { return a * math.Sin(2*math.Pi*1000*t) }
}

// steps plays sines of some levels one after the other.
func steps(parts ...[2]float64) (seconds float64, at func(float64) float64) {
	for _, p := range parts {
		seconds += p[0]
	}
	return seconds, func(t float64) float64 {
		from := 0.0
		for _, p := range parts {
			if t < from+p[0] {
				return sine(p[1])(t)
			}
			from += p[0]
		}
		return 0
	}
}

// EBU Tech 3341, minimum requirements, cases 1 to 5: stereo sines of 1 kHz, which the
// meter must read within 0.1 LU. (Case 1 was seen, the others are from memory.)
func TestLoudnessOfTech3341(t *testing.T) {
	for _, c := range []struct {
		name  string
		parts [][2]float64 // seconds, dB of full scale
		want  float64
	}{
		{"case 1", [][2]float64{{20, -23}}, -23},
		{"case 2", [][2]float64{{20, -33}}, -33},
		{"case 3", [][2]float64{{10, -36}, {60, -23}, {10, -36}}, -23},
		{"case 4", [][2]float64{{10, -72}, {10, -36}, {60, -23}, {10, -36}, {10, -72}}, -23},
		{"case 5", [][2]float64{{20, -26}, {20.1, -20}, {20, -26}}, -23},
	} {
		seconds, at := steps(c.parts...)
		m := newMeter(Rate*blockStep, 0)
		left := kWeighting()
		for i := range int(seconds * Rate) {
			v := left.Filter(at(float64(i) / Rate))
			m.add(2 * v * v)
		}
		if got := integrated(m.powers()); math.Abs(got-c.want) > 0.1 {
			t.Errorf("%s: %.2f LUFS, not %.1f", c.name, got, c.want)
		}
	}
}

// Every frame of a steady tone is as loud as the whole.
func TestLoudnessOfFrames(t *testing.T) {
	r := hear(t, 24000.0/1001, signal(2, sine(-23)))
	for i, v := range r.Frames[1:] {
		if math.Abs(v+23) > 0.1 {
			t.Errorf("frame %d: %.2f LUFS", i+1, v)
		}
	}
	if math.Abs(r.Loudness+23) > 0.1 {
		t.Errorf("all: %.2f LUFS", r.Loudness)
	}
}

func TestSilenceSaysNothing(t *testing.T) {
	for name, samples := range map[string][]float32{
		"none": nil, "silence": make([]float32, 3*Rate*Channels), "one sample": {1, 1},
		"hum":  signal(3, func(t float64) float64 { return 0.3 * math.Sin(2*math.Pi*50*t) }),
		"tone": signal(3, sine(-20)),
	} {
		r := hear(t, 24, samples)
		if len(r.Speech)+len(r.Pauses) > 0 || len(r.Accents) > 1 {
			t.Errorf("%s: speech %v, accents %v", name, r.Speech, r.Accents)
		}
		for i, v := range r.Frames {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: frame %d is %g LUFS", name, i, v)
			}
		}
	}
}

// Steady noise is its own floor, whatever its level and colour.
func TestSteadyNoiseSaysNothing(t *testing.T) {
	for _, seed := range []uint64{1, 2, 3} {
		random, low := rand.New(rand.NewPCG(seed, 0)), 0.0
		r := hear(t, 24, signal(20, func(float64) float64 {
			low += 0.05 * (random.NormFloat64() - low)
			return low
		}))
		if len(r.Speech) > 0 || len(r.Accents) > 0 {
			t.Errorf("seed %d: speech %v, accents %v", seed, r.Speech, r.Accents)
		}
	}
}

// Blows are heard on the instant, over noise as in silence, and are no speech.
func TestBlows(t *testing.T) {
	times := []float64{0.5, 1.13, 1.9, 2.2, 3.017}
	for name, noise := range map[string]float64{"clean": 0, "noise": 0.003} {
		random := rand.New(rand.NewPCG(7, 7))
		r := hear(t, 24, signal(4, func(t float64) float64 {
			v := noise * random.NormFloat64()
			for _, at := range times {
				if d := t - at; d >= 0 {
					v += 0.5 * math.Exp(-d/0.03) * random.NormFloat64()
				}
			}
			return v
		}))
		if len(r.Accents) != len(times) {
			t.Fatalf("%s: %v for blows at %v", name, r.Accents, times)
		}
		for i, a := range r.Accents {
			if math.Abs(a.Time-times[i]) > 0.02 || a.Spoken {
				t.Errorf("%s: %+v for a blow at %.3f s", name, a, times[i])
			}
		}
	}
}

// Whatever the size of the blocks that come, the same is heard.
func TestBlocksDoNotMatter(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	samples := signal(1, func(t float64) float64 { return math.Sin(9*t) * random.NormFloat64() })
	whole := hear(t, 25, samples)
	l := NewListener(25, 25)
	for i := 0; i < len(samples); i += 2 * 777 {
		if err := l.Write(samples[i:min(i+2*777, len(samples))]); err != nil {
			t.Fatal(err)
		}
	}
	if got := l.Result(); !reflect.DeepEqual(got, whole) {
		t.Errorf("%+v in small blocks, %+v in one", got, whole)
	}
}

// hummed is a voice of some pitch whose level swings from loud to soft and back a
// number of times a second.
func hummed(pitch, swings float64) func(float64) float64 {
	return func(t float64) float64 {
		v := 0.0
		for k := 1.0; k*pitch < 1500; k++ {
			v += math.Sin(2*math.Pi*k*pitch*t) / k
		}
		return 0.1 * v * math.Pow(math.Sin(math.Pi*swings*t), 2)
	}
}

// What goes on without a breath is no speech, the same with breaths is.
func TestSpeechBreathes(t *testing.T) {
	voice := hummed(240, 4)
	for name, c := range map[string]struct {
		breath float64 // s of silence in every five
		want   int
	}{"never": {0, 0}, "every five seconds": {0.5, 4}} {
		r := hear(t, 24, signal(20, func(t float64) float64 {
			if math.Mod(t, 5) < c.breath {
				return 0
			}
			return voice(t)
		}))
		if len(r.Speech) != c.want {
			t.Errorf("a breath %s: speech %v", name, r.Speech)
		}
	}
}

// Each swing of a voice is one syllable, at any pitch and level.
func TestSyllablesOfAVoice(t *testing.T) {
	for _, pitch := range []float64{85, 120, 210, 350} {
		for _, level := range []float64{1, 0.05} {
			voice := hummed(pitch, 4)
			r := hear(t, 24, signal(2.5, func(t float64) float64 { return level * voice(t) * math.Min(1, math.Max(0, 20*(2-t))) }))
			if n := len(r.Accents); n != 8 {
				t.Errorf("%g Hz at %g: %d accents for 8 syllables", pitch, level, n)
			}
			for i, a := range r.Accents {
				if want := 0.25 * float64(i); a.Time < want || a.Time > want+0.125 || !a.Spoken {
					t.Errorf("%g Hz at %g: %+v for the syllable from %.2f s on", pitch, level, a, want)
				}
			}
		}
	}
}
