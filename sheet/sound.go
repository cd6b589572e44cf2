package sheet

import (
	"bytes"
	"encoding/json"
	"fmt"
)

// A Sound is what is heard beside the pictures. A sheet of a clip without one has
// none.
type Sound struct {
	Source   string   `json:"source"`        // SoundOfClip, or the base name of a file
	Offset   float64  `json:"offset_s"`      // seconds that the sound was set later against the clip
	Loudness *float64 `json:"loudness_lufs"` // of the whole, ITU-R BS.1770; nil where it is silent

	Speech  []Stretch `json:"speech"`
	Pauses  []Stretch `json:"pauses"` // frames without a word between two stretches of speech
	Accents []Accent  `json:"accents"`
	Meeting *Meeting  `json:"against_picture"`     // given by Review; nil where none is clear
	Levels  []float64 `json:"frame_loudness_lufs"` // of each frame's own time; SilentLUFS where there is no sound
}

// SoundOfClip is the source of a sound that is the clip's own.
const SoundOfClip = "clip"

// SilentLUFS stands for the loudness of no sound.
const SilentLUFS = -120.0

// An Accent is an instant on which the sound sets in anew.
type Accent struct {
	Frame   int     `json:"frame"`    // on screen when it is heard
	Seconds float64 `json:"seconds"`  // from the first frame measured
	Level   float64 `json:"level_db"` // of its peak against the loudest accent's
	Rise    float64 `json:"rise_db"`  // how far the level rises to it
	Spoken  bool    `json:"spoken"`   // it is a syllable of speech

	// Given by Review.
	Stressed bool `json:"stressed"`              // no syllable near it is louder
	Beat     int  `json:"beat,omitempty"`        // id of the move of its shot that peaks nearest to it
	Lead     *int `json:"lead_frames,omitempty"` // how many frames before it that move peaks, negative: after
}

// Decimals of sounds: levels are known to a few tenths of a decibel.
const soundDigits = 1

// AddSpeech adds a stretch of speech, its frames those on screen while it is heard, and
// the pause before it. One that begins on the last one's frames goes on with it.
func (s *Sound) AddSpeech(start, end int) {
	if n := len(s.Speech); n > 0 {
		last := &s.Speech[n-1]
		if start <= last.End+1 {
			last.End = max(last.End, end)
			last.Frames = last.End - last.Start + 1
			return
		}
		s.Pauses = append(s.Pauses, Stretch{last.End + 1, start - 1, start - last.End - 1})
	}
	s.Speech = append(s.Speech, Stretch{start, end, end - start + 1})
}

func (s *Sheet) completeSound() {
	if s.Sound == nil {
		return
	}
	d := s.Sound
	d.Offset = round(d.Offset, secondDigits)
	d.Loudness = rounded(d.Loudness, soundDigits)
	fill(&d.Speech)
	fill(&d.Pauses)
	fill(&d.Accents)
	for i := range d.Accents {
		a := &d.Accents[i]
		a.Seconds, a.Level, a.Rise = round(a.Seconds, frameDigits), round(a.Level, soundDigits), round(a.Rise, soundDigits)
	}
	if d.Meeting != nil {
		m := *d.Meeting
		m.Offset = round(m.Offset, frameDigits)
		d.Meeting = &m
	}
	fill(&d.Levels)
	for i, v := range d.Levels {
		d.Levels[i] = round(v, soundDigits)
	}
}

// checkSound wants everything within the clip and in order.
func (s *Sheet) checkSound() error {
	if s.Sound == nil {
		return nil
	}
	first, last := s.Clip.FirstFrame, s.Clip.Last()
	for _, l := range []struct {
		name string
		list []Stretch
	}{{"sound.speech", s.Sound.Speech}, {"sound.pauses", s.Sound.Pauses}} {
		next := first
		for i, v := range l.list {
			if err := within(l.name, i, v.Start, v.End, next, last); err != nil {
				return err
			}
			if v.Frames != v.End-v.Start+1 {
				return bad(at(l.name, i, "frames"), "is %d", v.Frames)
			}
			next = v.End + 1
		}
	}
	for i, a := range s.Sound.Accents {
		if err := within("sound.accents", i, a.Frame, a.Frame, first, last); err != nil {
			return err
		}
		if a.Beat < 0 || a.Beat > len(s.Beats) {
			return bad(at("sound.accents", i, "beat"), "is %d; there are %d beats", a.Beat, len(s.Beats))
		}
		if i > 0 && a.Seconds < s.Sound.Accents[i-1].Seconds {
			return bad(at("sound.accents", i, "seconds"), "is before the one before")
		}
	}
	switch n := len(s.Sound.Levels); {
	case n != s.Clip.Frames:
		return bad("sound.frame_loudness_lufs", "has %d values for %d frames", n, s.Clip.Frames)
	case s.Sound.Source == "":
		return bad("sound.source", "is empty")
	}
	return nil
}

// writeSound writes one stretch and one accent a line, and levels on one.
func writeSound(b *bytes.Buffer, v any) error {
	s := v.(*Sound)
	separator := "{"
	for _, m := range []struct {
		name  string
		value any
	}{
		{"source", s.Source}, {"offset_s", s.Offset}, {"loudness_lufs", s.Loudness},
		{"speech", s.Speech}, {"pauses", s.Pauses}, {"accents", s.Accents}, {"against_picture", s.Meeting},
		{"frame_loudness_lufs", s.Levels},
	} {
		fmt.Fprintf(b, "%s\n    %q: ", separator, m.name)
		separator = ","
		if err := writeMember(b, m.value); err != nil {
			return err
		}
	}
	b.WriteString("\n  }")
	return nil
}

func writeMember(b *bytes.Buffer, v any) error {
	accents, ok := v.([]Accent)
	if !ok || len(accents) == 0 {
		return writeLine(b, v)
	}
	separator := "["
	for _, a := range accents {
		text, err := json.Marshal(a)
		if err != nil {
			return err
		}
		fmt.Fprintf(b, "%s\n      %s", separator, text)
		separator = ","
	}
	b.WriteString("\n    ]")
	return nil
}
