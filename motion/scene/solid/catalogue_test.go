package solid

import (
	"testing"

	"holdfast/motion/scene"
)

// TestCatalogueIsWhole plays every scene of the catalogue from the recordings:
// its contacts lie within it, in order, and a foot stands on one spot at a time.
func TestCatalogueIsWhole(t *testing.T) {
	scenes := recorded(t)
	names := map[string]bool{}
	for _, s := range scenes {
		if names[s.Name] {
			t.Errorf("two scenes are called %s", s.Name)
		}
		names[s.Name] = true
		truth := s.Truth()
		if len(truth.Figures) == 0 || len(truth.Contacts) == 0 {
			t.Errorf("%s: %d figures, %d contacts", s.Name, len(truth.Figures), len(truth.Contacts))
		}
		checkContacts(t, s, truth.Contacts)
	}
}

func checkContacts(t *testing.T, s *Scene, contacts []scene.Contact) {
	t.Helper()
	type foot struct {
		figure int
		side   scene.Side
	}
	last := map[foot]float64{}
	for _, c := range contacts {
		if c.Start < 0 || c.End < c.Start || c.End >= s.Frames || c.To < c.From {
			t.Errorf("%s: contact %d to %d (%.2f to %.2f) of %d frames", s.Name, c.Start, c.End, c.From, c.To, s.Frames)
		}
		f := foot{c.Figure, c.Foot}
		if end, stood := last[f]; stood && c.From < end {
			t.Errorf("%s: a foot stands from %.2f and until %.2f", s.Name, c.From, end)
		}
		last[f] = c.To
	}
}
