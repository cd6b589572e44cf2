package assemble

import (
	"maps"
	"math"

	"holdfast/motion/sound"
	"holdfast/sheet"
)

// A Heard sound is what was measured of one, and where it comes from.
type Heard struct {
	*sound.Result
	Source string  // sheet.SoundOfClip, or the base name of a file
	Offset float64 // seconds that it was set later
}

// sound carries over what is heard: seconds become frames.
func (m *Measured) sound(s *sheet.Sheet) {
	h := m.Sound
	if h == nil {
		return
	}
	out := &sheet.Sound{Source: h.Source, Offset: h.Offset, Levels: h.Frames}
	if h.Loudness > sound.Silent {
		loudness := h.Loudness
		out.Loudness = &loudness
	}
	for _, v := range h.Speech {
		// The last frame is the one on screen when the last word ends.
		out.AddSpeech(m.at(v.Start), max(m.at(v.Start), m.at(v.End-1.0/sound.Rate)))
	}
	for _, a := range h.Accents {
		out.Accents = append(out.Accents, sheet.Accent{
			Frame: m.at(a.Time), Seconds: a.Time, Level: a.Level, Rise: a.Rise, Spoken: a.Spoken,
		})
	}
	s.Sound = out
	maps.Copy(s.Settings, h.Settings)
}

// at is the number of the frame on screen some seconds after the first one came up.
func (m *Measured) at(seconds float64) int {
	k := int(math.Floor(seconds * m.clip.Rate.Float()))
	return m.number(min(max(k, 0), m.result.Frames-1))
}
