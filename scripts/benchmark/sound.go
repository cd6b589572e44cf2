package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"

	"holdfast/motion/scene"
	"holdfast/motion/sound"
	"holdfast/scripts/benchmark/espeak"
)

// onsetWindow is how far an accent may lie from the onset it belongs to, in seconds, as
// is customary (mir_eval).
const onsetWindow = 0.05

// A recital is sound whose onsets are known.
type recital struct {
	samples []float32 // one channel at sound.Rate
	onsets  []float64
}

// A hall is what is added to a recital: white noise so many dB under its speech.
type hall struct {
	name  string
	noise float64 // dB under the loudest tenth of a second; 0: none
}

var halls = []hall{{"clean", 0}, {"noise -30 dB", 30}, {"noise -20 dB", 20}, {"noise -10 dB", 10}}

// heardOnsets scores accents against known onsets, drawn and spoken, and prints a row
// for each hall.
func heardOnsets(stdout io.Writer) error {
	spoken, err := spokenRecitals()
	if err != nil && !errors.Is(err, espeak.ErrAbsent) {
		return err
	}
	fmt.Fprintf(stdout, "\nonsets within %.0f ms      true  found    F1   median offset\n", 1000*onsetWindow)
	for _, set := range []struct {
		name     string
		recitals []recital
	}{{"drawn", drawnRecitals()}, {"spoken", spoken}} {
		if len(set.recitals) == 0 {
			fmt.Fprintf(stdout, "%s: skipped, %v\n", set.name, err)
			continue
		}
		for _, h := range halls {
			c, offset := h.score(set.recitals)
			fmt.Fprintf(stdout, "%-8s%-16s%6d %6d %5.3f %8.0f ms\n", set.name, h.name, c.True, c.Found, c.F1(), 1000*offset)
		}
	}
	return nil
}

// drawnRecitals are voices made up by the scene.
func drawnRecitals() []recital {
	var list []recital
	for seed := range uint64(20) {
		v := scene.Speak(100+seed, 5)
		list = append(list, recital{v.Samples(sound.Rate), v.Onsets()})
	}
	return list
}

// spokenTexts are spoken by each of spokenVoices at each of spokenWords a minute.
var (
	spokenTexts = []string{
		"A lamp is a small sun, she said, and laughed. But who will carry it? Nobody knew. The wind came up from the sea, and the boats knocked against the quay all night long.",
		"Stop! Put that down. Now look at me. Do you remember what I told you? Good. Then say it again, slowly, and do not leave anything out.",
		"Every evening, when the light goes down, the old man climbs the hill with his lamp. He stops at each post, and waits.",
	}
	spokenVoices = []string{"en", "en-us", "en-gb-scotland"}
	spokenWords  = []int{120, 160, 200}
)

func spokenRecitals() ([]recital, error) {
	var list []recital
	for _, text := range spokenTexts {
		for _, voice := range spokenVoices {
			for _, words := range spokenWords {
				s, err := espeak.Speak(voice, text, words)
				if err != nil {
					return nil, err
				}
				list = append(list, recital{resampled(s.Samples, s.Rate), s.Vowels})
			}
		}
	}
	return list, nil
}

// resampled lays samples out at sound.Rate, on straight lines between them.
func resampled(in []float32, rate int) []float32 {
	out := make([]float32, len(in)*sound.Rate/rate)
	for i := range out {
		at := float64(i) * float64(rate) / sound.Rate
		k := int(at)
		next := min(k+1, len(in)-1)
		out[i] = in[k] + float32(at-float64(k))*(in[next]-in[k])
	}
	return out
}

// score hears all recitals in a hall.
func (h hall) score(recitals []recital) (Counts, float64) {
	var c Counts
	var offsets []float64
	for i, r := range recitals {
		accents := h.hear(r, uint64(i))
		partner := match(len(r.onsets), len(accents), func(i, k int) bool {
			return math.Abs(accents[k].Time-r.onsets[i]) <= onsetWindow
		})
		c.add(Counts{True: len(r.onsets), Found: len(accents)})
		for i, k := range partner {
			if k >= 0 {
				c.Matched++
				offsets = append(offsets, accents[k].Time-r.onsets[i])
			}
		}
	}
	return c, median(offsets)
}

func (h hall) hear(r recital, seed uint64) []sound.Accent {
	noise, random := float32(0), rand.New(rand.NewPCG(seed, 1))
	if h.noise > 0 {
		noise = loudest(r.samples) * float32(math.Pow(10, -h.noise/20))
	}
	ear := sound.NewListener(24, len(r.samples)*24/sound.Rate+1)
	for _, v := range r.samples {
		v += noise * float32(random.NormFloat64())
		_ = ear.Write([]float32{v, v}) // never fails
	}
	return ear.Result().Accents
}

// loudest is the amplitude of the loudest tenth of a second.
func loudest(samples []float32) float32 {
	const length = sound.Rate / 10
	most := 0.0
	for i := 0; i+length <= len(samples); i += length {
		sum := 0.0
		for _, v := range samples[i : i+length] {
			sum += float64(v) * float64(v)
		}
		most = math.Max(most, sum/length)
	}
	return float32(math.Sqrt(most))
}
