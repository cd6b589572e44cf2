package page

import (
	"strings"
	"testing"

	"holdfast/sheet"
)

func TestPageHoldsTheSound(t *testing.T) {
	if r := soundRow(sample()); r.Line != "" || len(r.Items) > 0 {
		t.Error("a row of sound without any")
	}
	s, late, early := sample(), -4, 2
	s.Sound = &sheet.Sound{Source: sheet.SoundOfClip, Levels: make([]float64, s.Clip.Frames)}
	for i := range s.Sound.Levels {
		s.Sound.Levels[i] = sheet.SilentLUFS
	}
	s.Sound.Levels[9] = -20
	s.Sound.AddSpeech(110, 120)
	s.Sound.Accents = []sheet.Accent{
		{Frame: 110, Seconds: 0.4, Spoken: true, Stressed: true, Beat: 2, Lead: &late},
		{Frame: 115, Seconds: 0.6, Spoken: true},
		{Frame: 132, Seconds: 1.3, Beat: 2, Lead: &early},
	}
	s.Complete()
	html := written(t, &Page{Sheet: s})
	for _, want := range []string{
		"stressed syllable, frame 110, the nearest move peaks 4 after it (beat 2)",
		"blow, frame 132, the nearest move peaks 2 before it (beat 2)", "speech, frames 110–120",
	} {
		if !strings.Contains(html, want) {
			t.Errorf("no %q", want)
		}
	}
	if strings.Contains(html, "frame 115") {
		t.Error("a syllable that is not stressed has a mark")
	}
	if line := soundRow(s).Line; !strings.HasPrefix(line, "M0.5 98.0L1.5 98.0") || !strings.Contains(line, "L9.5 4.0L10.5 98.0") {
		t.Errorf("curve %s", line)
	}
}
