package sheet

import (
	"fmt"
	"math"
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
	if words := s.stressWords(); len(words) > 0 {
		p.Line("Moves peak at stressed syllables: %s", fewWords(words))
	}
}

// mostNamed is how many of a kind are named in one paragraph; the JSON has all.
const mostNamed = 24

func fewWords(words []string) string {
	if more := len(words) - mostNamed; more > 0 {
		return strings.Join(words[:mostNamed], ", ") + fmt.Sprintf(" and %d more", more)
	}
	return strings.Join(words, ", ")
}

// stressWords says of each stressed syllable with a move near how far the move's peak
// lies from it: "35 (3 before)".
func (s *Sheet) stressWords() []string {
	near := int(math.Round(stressSeconds * s.Clip.FPS.Float()))
	var words []string
	for _, a := range s.Sound.Accents {
		if !a.Stressed || a.Lead == nil || away(*a.Lead, 0) > near {
			continue
		}
		where := "with it"
		switch {
		case *a.Lead > 0:
			where = fmt.Sprintf("%d before", *a.Lead)
		case *a.Lead < 0:
			where = fmt.Sprintf("%d after", -*a.Lead)
		}
		words = append(words, fmt.Sprintf("%d (%s)", a.Frame, where))
	}
	return words
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
	return "frames " + fewWords(words)
}

func pauseWords(list []Stretch) string {
	words := make([]string, len(list))
	for i, v := range list {
		words[i] = fmt.Sprintf("%s (%d f)", span(v.Start, v.End), v.Frames)
	}
	return "frames " + fewWords(words)
}
