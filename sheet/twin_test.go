package sheet

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

// twinSheet is a clip of two hands that were followed, twins on frames 20 to 40.
func twinSheet(t *testing.T, offset, likeness float64) *Sheet {
	t.Helper()
	s := ground(film, 60)
	for _, name := range []string{"left hand", "right hand"} {
		p := Part{Name: name, Shot: 1, Start: 1, End: 60, Boxes: make([]*[4]float64, 60), Motion: make([]*float64, 60)}
		s.Parts = append(s.Parts, p)
	}
	s.Twins = []Twin{{Shot: 1, First: "left hand", Second: "right hand", Start: 20, End: 40, Way: TwinMirrored, Likeness: likeness, Offset: offset}}
	return s
}

// twinReview is one of them with its notes.
func twinReview(t *testing.T) *Sheet {
	t.Helper()
	s := twinSheet(t, 0.5, 0.95)
	s.Complete()
	s.Review(DefaultFigureHeight, nil)
	return s
}

func TestTwinningNotes(t *testing.T) {
	for name, c := range map[string]struct {
		offset, likeness float64
		walks            bool
		want             int
	}{
		"together":        {0.2, 0.98, false, 1},
		"a frame early":   {-1.1, 0.98, false, 1},
		"two frames late": {2, 0.98, false, 0},
		"three early":     {-3.2, 0.98, false, 0},
		"not so like":     {0.2, 0.87, false, 0},
		"walking":         {0.2, 0.98, true, 0},
	} {
		s := twinSheet(t, c.offset, c.likeness)
		if c.walks {
			s.Contacts = []Contact{
				{Shot: 1, Figure: 1, Start: 22, End: 30, State: StatePlant, X: 10, Y: 10},
				{Shot: 1, Figure: 1, Start: 31, End: 45, State: StatePlant, X: 40, Y: 10},
			}
		}
		s.Complete()
		got := 0
		for _, n := range (&review{s, nil}).twinningNotes() {
			if n.Start != 20 || n.End != 40 || n.Weight != WeightLook {
				t.Errorf("%s: %+v", name, n)
			}
			got++
		}
		if got != c.want {
			t.Errorf("%s: %d notes", name, got)
		}
	}
}

// Both sides of a figure are twins with nothing marked, but no other names.
func TestHalvesAreTwins(t *testing.T) {
	s := twinSheet(t, 0.2, 0.98)
	s.Parts, s.Twins[0].First, s.Twins[0].Second = nil, LeftHalf, RightHalf
	s.Complete()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	notes := (&review{s, nil}).twinningNotes()
	if len(notes) != 1 || !strings.HasPrefix(notes[0].Text, "the left and the right side of the figure are twins") {
		t.Errorf("%+v", notes)
	}
	s.Impacts = []Impact{{Shot: 1, Figure: 1, Frame: 30}}
	if notes := (&review{s, nil}).twinningNotes(); len(notes) != 0 {
		t.Errorf("of a ball: %+v", notes)
	}
	s.Twins[0].Second = "right hand"
	if s.Check() == nil {
		t.Error("a half and a part are twins")
	}
}

func TestTwinsAreWrittenAndChecked(t *testing.T) {
	s := twinSheet(t, -1.23456, 0.98765)
	s.Complete()
	var b bytes.Buffer
	if err := s.WriteTable(&b, 0); err != nil {
		t.Fatal(err)
	}
	if row := "left hand, right hand 20–40 mirrored 99 % -1.2 f"; !strings.Contains(strings.Join(strings.Fields(b.String()), " "), row) {
		t.Errorf("no row %q in\n%s", row, b.String())
	}
	for path, spoil := range map[string]func(*Twin){
		"twins[0].first":    func(w *Twin) { w.First = "foot" },
		"twins[0].second":   func(w *Twin) { w.Second = "foot" },
		"twins[0].way":      func(w *Twin) { w.Way = "askew" },
		"twins[0].likeness": func(w *Twin) { w.Likeness = 1.1 },
		"twins[0].end":      func(w *Twin) { w.End = 99 },
	} {
		s := twinSheet(t, 0, 0.9)
		s.Complete()
		spoil(&s.Twins[0])
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}
