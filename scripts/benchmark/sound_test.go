package main

import (
	"errors"
	"math"
	"testing"

	"holdfast/motion/sound"
	"holdfast/scripts/benchmark/espeak"
)

// Clean speech of a program that tells its vowels: 0.90 within 50 ms is what is asked.
func TestSpokenOnsets(t *testing.T) {
	s, err := espeak.Speak("en-us", spokenTexts[1], 160)
	if errors.Is(err, espeak.ErrAbsent) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Vowels) < 30 {
		t.Fatalf("only %d vowels", len(s.Vowels))
	}
	c, offset := halls[0].score([]recital{{resampled(s.Samples, s.Rate), s.Vowels}})
	if !(c.F1() >= 0.9) || math.Abs(offset) > onsetWindow/2 {
		t.Errorf("F1 %.3f of %+v, %.3f s off", c.F1(), c, offset)
	}
}

// A score falls where onsets are not those of the sound.
func TestOnsetScoreCanFail(t *testing.T) {
	r := drawnRecitals()[0]
	for i := range r.onsets {
		r.onsets[i] += 0.12
	}
	if c, _ := halls[0].score([]recital{r}); c.F1() > 0.5 {
		t.Errorf("F1 %.3f for onsets that are not there", c.F1())
	}
}

func TestResampled(t *testing.T) {
	in := make([]float32, 22050)
	for i := range in {
		in[i] = float32(i) / 22050
	}
	out := resampled(in, 22050)
	if len(out) != sound.Rate || math.Abs(float64(out[sound.Rate/2])-0.5) > 1e-3 {
		t.Errorf("%d samples, %g in the middle", len(out), out[sound.Rate/2])
	}
}
