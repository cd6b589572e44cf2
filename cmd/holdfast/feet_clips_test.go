package main

import (
	"testing"

	"holdfast/sheet"
)

// The clip of a figure that skips a rope, frames from 0, by eye: on the ground
// on 5 to 10 and 17 to 22, a frame either way.
func TestRopeSkipping(t *testing.T) {
	s := sheetOf(t, clip(t, "rope-skipping.webm"))
	first := s.Clip.FirstFrame
	for _, want := range [][2]int{{5, 10}, {17, 22}} {
		n := 0
		for _, c := range s.Contacts {
			if near(c.Start-first, want[0]) && near(c.End-first, want[1]) && c.State == sheet.StatePlant {
				n++
			}
		}
		if n != 2 {
			t.Errorf("%d feet stand on %d to %d, want 2; contacts %+v", n, want[0], want[1], s.Contacts)
		}
	}
	for _, f := range s.Flights {
		if near(f.Start-first, 11) && near(f.End-first, 15) {
			return
		}
	}
	t.Errorf("flights %+v, want one from 11 to 15", s.Flights)
}

func near(a, b int) bool { return a-b >= -1 && a-b <= 1 }

// People seen from the hips up have no feet, however their elbows rest.
func TestNoFeetInGestures(t *testing.T) {
	for _, name := range []string{"gesture-again.mkv", "gesture-help.mkv"} {
		s := sheetOf(t, clip(t, name))
		if len(s.Contacts)+len(s.Flights)+len(s.Impacts) > 0 {
			t.Errorf("%s: contacts %+v, flights %+v, impacts %+v, want none", name, s.Contacts, s.Flights, s.Impacts)
		}
	}
}
