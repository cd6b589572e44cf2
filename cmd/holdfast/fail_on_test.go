package main

import (
	"testing"

	"holdfast/sheet"
)

func TestFailOn(t *testing.T) {
	fix, look := sheet.Note{Weight: sheet.WeightFix}, sheet.Note{Weight: sheet.WeightLook}
	for _, c := range []struct {
		weight string
		notes  []sheet.Note
		want   string
	}{
		{"", []sheet.Note{fix, look}, ""},
		{sheet.WeightFix, nil, ""},
		{sheet.WeightFix, []sheet.Note{look}, ""},
		{sheet.WeightFix, []sheet.Note{look, fix, fix}, "walk.mp4: notes found: 2 to fix"},
		{sheet.WeightLook, nil, ""},
		{sheet.WeightLook, []sheet.Note{look}, "walk.mp4: notes found: 1 worth a look"},
		{sheet.WeightLook, []sheet.Note{look, fix}, "walk.mp4: notes found: 1 to fix, 1 worth a look"},
	} {
		s := &sheet.Sheet{Clip: sheet.Clip{Name: "walk.mp4"}, Notes: c.notes}
		got := ""
		if err := failOn(c.weight, s); err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%q on %d notes: %q, want %q", c.weight, len(c.notes), got, c.want)
		}
	}
}
