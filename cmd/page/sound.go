package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"holdfast/sheet"
)

// loudRange is how many dB under the loudest frame a curve of loudness reaches down: soft
// ends of words lie 30 dB below stressed vowels.
const loudRange = 40.0

// soundRow is the loudness frame by frame with a mark for each stressed syllable and
// each blow.
func soundRow(s *sheet.Sheet) row {
	r := row{ID: "sound", Name: "Sound", Frames: s.Clip.Frames, Tall: 48}
	if s.Sound == nil || len(s.Sound.Levels) == 0 {
		return r
	}
	top := slices.Max(s.Sound.Levels)
	var b strings.Builder
	for i, v := range s.Sound.Levels {
		height := math.Max(0, 1-(top-v)/loudRange)
		if top <= sheet.SilentLUFS {
			height = 0
		}
		fmt.Fprintf(&b, "%c%.1f %.1f", "ML"[min(i, 1)], float64(i)+0.5, 98-94*height)
	}
	r.Line = b.String()
	for _, a := range s.Sound.Accents {
		if a.Stressed || !a.Spoken {
			r.Items = append(r.Items, item{
				Start: a.Frame, End: a.Frame, At: a.Frame, Class: "peak", clip: &s.Clip, Text: accentWords(a),
			})
		}
	}
	return r
}

func accentWords(a sheet.Accent) string {
	words := fmt.Sprintf("blow, frame %d", a.Frame)
	if a.Spoken {
		words = fmt.Sprintf("stressed syllable, frame %d", a.Frame)
	}
	switch {
	case a.Lead == nil:
		return words
	case *a.Lead < 0:
		return said(words, fmt.Sprintf("the nearest move peaks %d after it (beat %d)", -*a.Lead, a.Beat))
	case *a.Lead > 0:
		return said(words, fmt.Sprintf("the nearest move peaks %d before it (beat %d)", *a.Lead, a.Beat))
	}
	return said(words, fmt.Sprintf("a move peaks with it (beat %d)", a.Beat))
}

// words are the stretches of speech.
func words(s *sheet.Sheet) (list []item) {
	if s.Sound == nil {
		return nil
	}
	for _, v := range s.Sound.Speech {
		list = append(list, item{
			Start: v.Start, End: v.End, Class: "plain", Label: "words", Text: said("speech", span(v.Start, v.End)),
		})
	}
	return list
}
