package main

import (
	"testing"

	"holdfast/sheet"
)

// The camera that filmed the gestures repeated a picture now and then while the
// hands fall, by eye on frames 63 and 65 of one and 47 and 50 of the other, from 0.
// Of the last the frames around it are too uneven to tell.
func TestGesturesHitchWhereTheCaptureDid(t *testing.T) {
	for name, want := range map[string][]int{"gesture-again.mkv": {63, 65}, "gesture-help.mkv": {47}} {
		s := sheetOf(t, clip(t, name))
		found := map[int]bool{}
		for _, b := range s.Beats {
			if b.Texture == nil {
				continue
			}
			for _, h := range b.Texture.Hitches {
				for i := h.Start; i <= h.End; i++ {
					found[i-s.Clip.FirstFrame] = true
				}
			}
		}
		for _, frame := range want {
			if !found[frame] {
				t.Errorf("%s: hitches on %v, want one on %d", name, found, frame)
			}
		}
		if len(found) > len(want) {
			t.Errorf("%s: hitches on %v, want %v", name, found, want)
		}
	}
}

// Filmed gestures and a skipping figure have nothing about their timing that
// must be changed.
func TestTimingOfRealClipsWantsNoFix(t *testing.T) {
	timing := map[string]bool{
		"pop": true, "hitch": true, "dead-hold": true, "hold-too-short": true,
		"long-without-hold": true, "even-timing": true, "same-size-moves": true,
	}
	for _, name := range []string{"gesture-again.mkv", "gesture-help.mkv", "rope-skipping.webm"} {
		for _, n := range sheetOf(t, clip(t, name)).Notes {
			if timing[n.Kind] && n.Weight == sheet.WeightFix {
				t.Errorf("%s: %s, %d–%d: %s", name, n.Kind, n.Start, n.End, n.Text)
			}
		}
	}
}
