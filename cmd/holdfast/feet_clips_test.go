package main

import (
	"os/exec"
	"path/filepath"
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

// The same however it comes: written anew by another coder, smaller, and the other
// way round.
func TestRopeSkippingWrittenAnew(t *testing.T) {
	from := clip(t, "rope-skipping.webm")
	for name, how := range map[string][]string{
		"half size": {"-vf", "scale=640:-2", "-c:v", "libx264", "-crf", "23"},
		"mirrored":  {"-vf", "hflip", "-c:v", "libx264", "-crf", "18"},
		"coarse":    {"-c:v", "libx264", "-crf", "30"},
		"old coder": {"-c:v", "mpeg4", "-q:v", "6"},
	} {
		path := filepath.Join(t.TempDir(), "clip.mp4")
		args := append(append([]string{"-v", "error", "-i", from, "-an"}, how...), "-pix_fmt", "yuv420p", path)
		if said, err := exec.Command("ffmpeg", args...).CombinedOutput(); err != nil {
			t.Skipf("ffmpeg: %v: %s", err, said)
		}
		s := sheetOf(t, path)
		if len(s.Flights) != 1 || !near(s.Flights[0].Start, 11) || !near(s.Flights[0].End, 15) {
			t.Errorf("%s: flights %+v, want one from 11 to 15", name, s.Flights)
		}
	}
}

// A toy whose rotor turns, with its shadow, stands on nothing that comes and goes.
func TestNoFeetOfAToy(t *testing.T) {
	s := sheetOf(t, moduleFile(t, "gocv.io/x/gocv", "images", "small.mp4"))
	if len(s.Contacts)+len(s.Flights)+len(s.Impacts) > 0 {
		t.Errorf("contacts %+v, flights %+v, impacts %+v, want none", s.Contacts, s.Flights, s.Impacts)
	}
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
