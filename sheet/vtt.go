package sheet

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
)

// WriteVTT writes the beats as cues of W3C WebVTT, so that a player shows them
// over the clip: one cue a beat, from the millisecond its first frame begins
// in to the one the frame after its last begins in. A sheet that Check refuses
// is not written: the error is then a *FieldError.
func (s *Sheet) WriteVTT(w io.Writer) error {
	if err := s.Check(); err != nil {
		return err
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "WEBVTT\n\nNOTE Beats of %s, %s at %s fps\n", vttText(s.Clip.Name),
		frameWords(s.Clip.FirstFrame, s.Clip.Last()), s.Clip.FPS.Words())
	beats := slices.Clone(s.Beats)
	slices.SortStableFunc(beats, func(p, q Beat) int { // cues come in order of their starts
		return cmp.Or(cmp.Compare(p.Start, q.Start), cmp.Compare(p.Figure, q.Figure))
	})
	for _, beat := range beats {
		fmt.Fprintf(&b, "\nbeat %d\n%s --> %s\n%s\n", beat.ID,
			vttTime(s.Clip.FPS.Millis(s.Clip.index(beat.Start))),
			vttTime(s.Clip.FPS.Millis(s.Clip.index(beat.End+1))), vttText(s.cueText(beat)))
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("write beats as WebVTT: %w", err)
	}
	return nil
}

// cueText returns one line for a beat. The figure is named where a shot has
// several.
func (s *Sheet) cueText(b Beat) string {
	var t strings.Builder
	if s.crowded() {
		t.WriteString("figure " + figureName(b.Figure) + ": ")
	}
	fmt.Fprintf(&t, "%s, %s (%d)", b.words(), frameWords(b.Start, b.End), b.Frames)
	if b.Peak != nil {
		fmt.Fprintf(&t, ", peak %d", *b.Peak)
	}
	if b.Size != nil {
		fmt.Fprintf(&t, ", size %.2f", *b.Size)
	}
	return t.String()
}

func vttTime(ms int64) string {
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}

// vttText escapes what WebVTT would read as markup; with > escaped the text
// holds no arrow either.
func vttText(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(Visible(s))
}
