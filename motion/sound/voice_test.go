package sound_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"holdfast/motion/scene"
	"holdfast/motion/sound"
)

// stereo is one channel on both sides, with noise at a level in dB of full scale.
func stereo(mono []float32, noise float64) []float32 {
	r, a := rand.New(rand.NewPCG(5, 5)), float32(math.Pow(10, noise/20))
	out := make([]float32, 0, 2*len(mono))
	for _, v := range mono {
		v += a * float32(r.NormFloat64())
		out = append(out, v, v)
	}
	return out
}

// score pairs accents with true onsets, each with one at most, within a window in
// seconds. On a line, pairing from the left is the best there is.
func score(truth []float64, accents []sound.Accent, window float64) (met int) {
	for i, k := 0, 0; i < len(truth) && k < len(accents); {
		switch d := accents[k].Time - truth[i]; {
		case d < -window:
			k++
		case d > window:
			i++
		default:
			met, i, k = met+1, i+1, k+1
		}
	}
	return met
}

// Speech of known onsets: F1 within 50 ms, as mir_eval scores onsets, and every
// pause.
func TestSpeechOfKnownOnsets(t *testing.T) {
	for name, c := range map[string]struct {
		noise, least float64
	}{"clean": {-100, 0.95}, "noise": {-45, 0.9}} {
		met, there, found := 0, 0, 0
		for seed := range uint64(6) {
			v := scene.Speak(seed, 4)
			l := sound.NewListener(24, int(v.Seconds*24))
			if err := l.Write(stereo(v.Samples(sound.Rate), c.noise)); err != nil {
				t.Fatal(err)
			}
			r := l.Result()
			met += score(v.Onsets(), r.Accents, 0.05)
			there, found = there+len(v.Syllables), found+len(r.Accents)
			if len(r.Pauses) != len(v.Pauses) {
				t.Errorf("%s, seed %d: pauses %v, not %v", name, seed, r.Pauses, v.Pauses)
				continue
			}
			for i, p := range r.Pauses {
				// A hiss before the first vowel may be lost in noise.
				if math.Abs(p.Start-v.Pauses[i][0]) > 0.05 || p.End < v.Pauses[i][1]-0.05 || p.End > v.Pauses[i][1]+0.12 {
					t.Errorf("%s, seed %d: pause %v, not %v", name, seed, p, v.Pauses[i])
				}
			}
		}
		if f1 := 2 * float64(met) / float64(there+found); f1 < c.least {
			t.Errorf("%s: F1 %.3f (%d true, %d found, %d met)", name, f1, there, found, met)
		}
	}
}
