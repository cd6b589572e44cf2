package sheet

import (
	"fmt"
	"strings"

	"holdfast/sheet/internal/page"
)

// writeSound says in a few lines what is heard.
func (s *Sheet) writeSound(p *page.Page) {
	if s.Sound == nil {
		return
	}
	p.Line("%s", s.Sound.words())
	if len(s.Sound.Speech) > 0 {
		p.Line("Speech: %s", stretchWords(s.Sound.Speech))
	}
	if len(s.Sound.Pauses) > 0 {
		p.Line("Pauses: %s", pauseWords(s.Sound.Pauses))
	}
}

// words says which sound there is, how loud, and how many accents it has.
func (d *Sound) words() string {
	head := "Sound"
	if d.Source != SoundOfClip {
		head += " from " + d.Source
	}
	if d.Offset != 0 {
		head += fmt.Sprintf(", set %+.3f s", d.Offset)
	}
	if d.Loudness == nil {
		return head + ": silent"
	}
	spoken := 0
	for _, a := range d.Accents {
		if a.Spoken {
			spoken++
		}
	}
	return fmt.Sprintf("%s: %.1f LUFS, %s (%s), %s", head, *d.Loudness, count(len(d.Accents), "accent"),
		count(spoken, "syllable"), count(len(d.Pauses), "pause"))
}

func stretchWords(list []Stretch) string {
	words := make([]string, len(list))
	for i, v := range list {
		words[i] = span(v.Start, v.End)
	}
	return "frames " + strings.Join(words, ", ")
}

func pauseWords(list []Stretch) string {
	words := make([]string, len(list))
	for i, v := range list {
		words[i] = fmt.Sprintf("%s (%d f)", span(v.Start, v.End), v.Frames)
	}
	return "frames " + strings.Join(words, ", ")
}
