package follow

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"holdfast/sheet"
	"holdfast/sheet/internal/sketch"
)

// pass makes a sheet of beats in words with notes.
func pass(beats string, notes ...sheet.Note) *sheet.Sheet {
	s := sketch.Of(beats)
	s.Notes = notes
	s.Complete()
	return s
}

func slide(start, end int, weight string, slip float64) sheet.Note {
	return sheet.Note{Kind: "slide", Start: start, End: end, Weight: weight, Text: "the foot slides", Measured: map[string]any{"slip_share": slip}}
}

func short(start, frames int) sheet.Note {
	return sheet.Note{Kind: "hold-too-short", Start: start, End: start + frames - 1, Weight: sheet.WeightLook, Text: "too short",
		Measured: map[string]any{"shortest_frames": frames}}
}

const (
	lantern = "h20 m8 h14 m12 h30 m6 h9 m10 h22"
	longer  = "h20 m8 h34 m12 h30 m6 h9 m10 h22" // all from 43 on comes 20 frames later
)

func TestStates(t *testing.T) {
	fix, look := sheet.WeightFix, sheet.WeightLook
	for _, test := range []struct {
		name   string
		passes []*sheet.Sheet
		want   string // kind, state and frames in the last pass of each note
	}{
		{"still there, moved by a longer hold", []*sheet.Sheet{
			pass(lantern, slide(90, 96, fix, 0.08)), pass(longer, slide(110, 116, fix, 0.083)),
		}, "slide remains 110-116"},
		{"another place is another note", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, 0.08)), pass(longer, slide(5, 9, fix, 0.08)),
		}, "slide new 5-9|slide fixed 80-86"},
		{"another kind is another note", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, 0.08)), pass(lantern, short(60, 4)),
		}, "hold-too-short new 60-63|slide fixed 60-66"},
		{"more slip is worse", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, -0.05)), pass(lantern, slide(60, 66, fix, 0.08)),
		}, "slide worse 60-66"},
		{"less slip is better", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, 0.08)), pass(lantern, slide(60, 66, fix, 0.05)),
		}, "slide better 60-66"},
		{"a fix that is worth a look is better whatever its number", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, 0.04)), pass(lantern, slide(60, 66, look, 0.09)),
		}, "slide better 60-66"},
		{"a shorter hold is worse", []*sheet.Sheet{
			pass(lantern, short(60, 5)), pass(lantern, short(60, 3)),
		}, "hold-too-short worse 60-62"},
		{"fixed and back", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, 0.08)), pass(longer), pass(lantern, slide(61, 66, fix, 0.08)),
		}, "slide back 61-66"},
		{"two of a kind keep their order", []*sheet.Sheet{
			pass(lantern, slide(60, 66, fix, 0.08), slide(70, 76, fix, 0.2)), pass(lantern, slide(71, 77, fix, 0.2)),
		}, "slide fixed 60-66|slide remains 71-77"},
		{"nothing to say", []*sheet.Sheet{pass(lantern), pass(lantern)}, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			h := Passes(test.passes, sheet.Tool{})
			var got []string
			for _, n := range h.Notes {
				got = append(got, fmt.Sprintf("%s %s %d-%d", n.Kind, n.State, n.Start, n.End))
				if len(n.Seen) != len(test.passes) {
					t.Errorf("%d sightings in %d passes", len(n.Seen), len(test.passes))
				}
			}
			if s := strings.Join(got, "|"); s != test.want {
				t.Errorf("got  %s\nwant %s", s, test.want)
			}
		})
	}
}

// What is no take of the same acting is said, and notes are matched by time.
func TestUnrelatedPasses(t *testing.T) {
	h := Passes([]*sheet.Sheet{
		pass(lantern, slide(60, 66, sheet.WeightFix, 0.08)), pass("m131", slide(62, 66, sheet.WeightFix, 0.08)),
	}, sheet.Tool{})
	if h.Related[0] || !strings.Contains(h.Summary[0], "does not look like") || h.Notes[0].State != Remains {
		t.Errorf("related %v, %q, %+v", h.Related, h.Summary, h.Notes)
	}
}

func TestRemarksMoveOn(t *testing.T) {
	a, b := pass(lantern), pass(longer)
	a.Remarks = []sheet.Remark{{Start: 90, End: 96, Text: "softer"}}
	b.Remarks = []sheet.Remark{{Start: 3, End: 4, Text: "good"}}
	h := Passes([]*sheet.Sheet{a, b}, sheet.Tool{})
	if got := fmt.Sprint(h.Remarks); got != "[{2 good 3 4 3 4} {1 softer 90 96 110 116}]" {
		t.Errorf("got %s", got)
	}
}

func TestWriters(t *testing.T) {
	a := pass(lantern, slide(60, 66, sheet.WeightFix, 0.08), short(90, 5))
	a.Remarks = []sheet.Remark{{Start: 90, End: 96, Text: "softer"}}
	h := Passes([]*sheet.Sheet{a, pass(longer, slide(80, 86, sheet.WeightFix, 0.08)), pass(longer, slide(80, 86, sheet.WeightFix, 0.12))},
		sheet.Tool{Name: "holdfast", Version: "1"})
	schema, err := jsonschema.NewCompiler().Compile("../../testdata/follow-up.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := h.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	value, err := jsonschema.UnmarshalJSON(&b)
	if err != nil {
		t.Fatal(err)
	}
	if err := schema.Validate(value); err != nil {
		t.Error(err)
	}
	b.Reset()
	if err := h.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	if rows, err := csv.NewReader(&b).ReadAll(); err != nil || len(rows) != 1+4 || rows[3][8] != "0.12" {
		t.Errorf("%v, %v", err, rows)
	}
	for _, width := range []int{0, 60, 200} {
		b.Reset()
		if err := h.WriteTable(&b, width); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if w := text.StringWidth(strings.TrimRight(line, "\n")); width > 0 && w > width {
				t.Errorf("width %d: a line of %d: %q", width, w, line)
			}
		}
		for _, want := range []string{"Of 2 notes: 1 got worse, 1 fixed.", "1 still to fix.", "80–86, 12.0 %", "Worse (fix), frames 80–86", "Remark on pass 1, frames 90–96, now 110–116: softer"} {
			if !strings.Contains(b.String(), want) {
				t.Errorf("width %d: no %q in\n%s", width, want, b.String())
			}
		}
	}
}
