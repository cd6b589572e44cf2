package compare

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"holdfast/motion/scene"
	"holdfast/sheet"
	"holdfast/sheet/internal/sketch"
)

// trueSheet is the sheet of a scene if everything were measured right.
func trueSheet(sc *scene.Scene) *sheet.Sheet {
	truth := sc.Truth()
	s := &sheet.Sheet{Clip: sheet.Clip{
		Name: sc.Name, Width: sc.Width, Height: sc.Height, FPS: sheet.Rate(sc.Rate), Frames: sc.Frames, FirstFrame: 1,
	}}
	for _, shot := range truth.Shots {
		s.Shots = append(s.Shots, sheet.Shot{Start: shot.Start + 1, End: shot.End + 1, Camera: sheet.Camera{Kind: shot.Kind, Zoom: 1}})
	}
	s.Curve.Motion, s.Curve.Camera = make([]float64, sc.Frames), make([][4]float64, sc.Frames)
	for _, f := range truth.Figures {
		for _, e := range f.Exposure {
			s.Exposure = append(s.Exposure, sheet.Exposure{Shot: f.Shot + 1, Start: e.Start + 1, End: e.End + 1, Pattern: e.Pattern, FramesPerDrawing: e.FramesPerDrawing})
		}
		for _, b := range f.Beats {
			if b.Hold {
				s.Beats = append(s.Beats, sheet.NewHold(f.Shot+1, 0, b.Start+1, b.End+1, sheet.HoldFrozen))
			} else {
				s.Beats = append(s.Beats, sheet.NewMove(f.Shot+1, 0, b.Start+1, b.End+1, b.Peak+1, b.Size))
			}
		}
		for k := range f.Mean {
			s.Curve.Motion[f.Start+k] = f.Mean[k] / f.Height[k]
		}
	}
	s.Complete()
	return s
}

// editKinds are the differences that name the edits of a drawn pair.
var editKinds = map[string]string{
	HoldMissing: scene.EditMissing, HoldExtra: scene.EditExtra, HoldShorter: scene.EditShorter,
	HoldLonger: scene.EditLonger, HoldsSwapped: scene.EditSwapped,
}

// names reports whether a difference names an edit with the right frames.
func names(d Difference, e scene.Edit) bool {
	return editKinds[d.Kind] == e.Kind && at(d.Reference, e.RefStart, e.RefEnd) && at(d.Pass, e.PassStart, e.PassEnd)
}

// at reports whether a span, which counts from 1, is one that counts from 0,
// within a frame.
func at(s *Span, start, end int) bool {
	if s == nil || start < 0 {
		return s == nil && start < 0
	}
	return abs(s.Start-1-start) <= 1 && abs(s.End-1-end) <= 1
}

// TestKnownEdits compares drawn pairs whose edits are known: each is named with
// its frames and nothing else is said.
func TestKnownEdits(t *testing.T) {
	pairs, err := scene.Pairs(image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pairs {
		t.Run(p.Name, func(t *testing.T) {
			c := New(trueSheet(p.Reference), trueSheet(p.Pass), sheet.Tool{})
			if !c.Related {
				t.Fatalf("likeness %.2f: not taken for the same acting", c.Likeness)
			}
			if off := c.Speed/p.Speed - 1; off < -0.012 || off > 0.012 {
				t.Errorf("speed %.3f, want %.2f", c.Speed, p.Speed)
			}
			if abs(c.Offset-p.Offset) > 2 {
				t.Errorf("offset %d, want %d", c.Offset, p.Offset)
			}
			if len(c.Differences) != len(p.Edits) {
				t.Errorf("%d differences, want %d", len(c.Differences), len(p.Edits))
			}
			for i := range min(len(p.Edits), len(c.Differences)) {
				if d := c.Differences[i]; !names(d, p.Edits[i]) {
					t.Errorf("said %s %v %v (%s), want %+v", d.Kind, d.Reference, d.Pass, d.Text, p.Edits[i])
				}
			}
			if t.Failed() {
				for _, s := range c.Summary {
					t.Log(s)
				}
			}
		})
	}
}

// TestEditsByLot does so with passages made up by lot. A few are told otherwise:
// what was done to a hold between two fast moves can often be told in two ways.
func TestEditsByLot(t *testing.T) {
	const leastF1 = 0.98
	pairs, err := scene.RandomPairs(41, 4, image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	named, told, edits := 0, 0, 0
	for _, p := range pairs {
		c := New(trueSheet(p.Reference), trueSheet(p.Pass), sheet.Tool{})
		if off := c.Speed/p.Speed - 1; !c.Related || math.Abs(off) > 0.012 || abs(c.Offset-p.Offset) > 2 {
			t.Errorf("%s: likeness %.2f, speed %.3f, offset %d, want %.2f and %d", p.Name, c.Likeness, c.Speed, c.Offset, p.Speed, p.Offset)
		}
		edits, told = edits+len(p.Edits), told+len(c.Differences)
		for _, e := range p.Edits {
			if slices.ContainsFunc(c.Differences, func(d Difference) bool { return names(d, e) }) {
				named++
			} else {
				t.Logf("%s: %+v not named: %s", p.Name, e, strings.Join(c.Summary, " "))
			}
		}
	}
	if f1 := 2 * float64(named) / float64(told+edits); f1 < leastF1 {
		t.Errorf("%d of %d edits named, %d differences told: F1 %.3f, want %.2f", named, edits, told, f1, leastF1)
	}
}

// TestUnrelated compares passages that have nothing to do with each other.
func TestUnrelated(t *testing.T) {
	pairs, err := scene.Pairs(image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]*sheet.Sheet{}
	var names []string
	for _, p := range pairs {
		if seen[p.Reference.Name] == nil {
			seen[p.Reference.Name] = trueSheet(p.Reference)
			names = append(names, p.Reference.Name)
		}
	}
	for _, a := range names {
		for _, b := range names {
			c := New(seen[a], seen[b], sheet.Tool{})
			if c.Related != (a == b) {
				t.Errorf("%s and %s: likeness %.2f", a, b, c.Likeness)
			}
			if !c.Related && len(c.Beats)+len(c.Differences) > 0 {
				t.Errorf("%s and %s were lined up all the same", a, b)
			}
		}
	}
}

const lantern = "h20 m8 h14 m12 h30 m6 h9 m10 h22"

// TestSummary holds what a person would say aloud to what was done.
func TestSummary(t *testing.T) {
	for _, test := range []struct{ name, pass, want string }{
		{"the same", lantern, "No difference: every beat lies where the reference has it."},
		{"short", "h20 m8 h14 m12 h16 m6 h9 m10 h22", "The pass runs 14 frames short.|At 55: the hold is 14 frames shorter: 16, where 30 would be the reference's."},
		{"lost", "h20 m8 h14 m12 h30 m10 h22", "The pass runs 15 frames short.|At 87: the hold of 9 frames at 91–99 of the reference is missing."},
		{"made up for", "h20 m8 h22 m4 h30 m6 h9 m10 h22", "At 29: the hold is 8 frames longer: 22, where 14 would be the reference's.|At 51: the move is faster: it takes 4 frames, where 12 would be the reference's."},
		{"late", "h30 m8 h14 m12 h30 m6 h9 m10 h22", "The pass comes 10 frames later from its first beat on.|The pass runs 10 frames long.|Otherwise every beat lies where the reference has it."},
	} {
		t.Run(test.name, func(t *testing.T) {
			c := New(sketch.Of(lantern), sketch.Of(test.pass), sheet.Tool{})
			if got := strings.Join(c.Summary, "|"); got != test.want {
				t.Errorf("got  %s\nwant %s", got, test.want)
			}
		})
	}
}

// TestHops tells a hop that is half as high, one that is gone and one that is new.
func TestHops(t *testing.T) {
	ref, pass := sketch.Of(lantern), sketch.Of(lantern)
	hop := func(start int, rise float64) sheet.Flight {
		return sheet.Flight{Shot: 1, Figure: 1, Start: start, End: start + 7, Frames: 8, RiseShare: rise}
	}
	for _, s := range []*sheet.Sheet{ref, pass} {
		s.Figures = []sheet.Figure{{ID: 1, Shot: 1, Start: 1, End: s.Clip.Last(), Height: 200}}
	}
	ref.Flights = []sheet.Flight{hop(22, 0.12), hop(44, 0.2)}
	pass.Flights = []sheet.Flight{hop(23, 0.06), hop(102, 0.1)}
	ref.Complete()
	pass.Complete()
	c := New(ref, pass, sheet.Tool{})
	var kinds []string
	for _, d := range c.Differences {
		kinds = append(kinds, fmt.Sprint(d.At, " ", d.Kind, " ", d.Weight))
	}
	want := "23 hop-lower look|44 hop-missing fix|102 hop-extra look"
	if got := strings.Join(kinds, "|"); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if text := c.Differences[0].Text; text != "the hop is half as high" {
		t.Errorf("said %q", text)
	}
}

// TestRetime follows frames of the reference to where the pass has them.
func TestRetime(t *testing.T) {
	c := New(sketch.Of(lantern), sketch.Of("h20 m8 h14 m12 h40 m6 h9 m10 h22"), sheet.Tool{})
	for _, test := range []struct {
		reference int
		pass      float64
	}{{1, 1}, {40, 40}, {55, 55}, {85, 95}, {131, 141}} {
		if got, ok := c.PassFrame(test.reference); !ok || math.Abs(got-test.pass) > 1e-9 {
			t.Errorf("frame %d is %v, want %v", test.reference, got, test.pass)
		}
	}
	var b bytes.Buffer
	if err := c.WriteRetime(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 1+131 || rows[85][2] != "95" {
		t.Errorf("%v, %d rows, row 85 %v", err, len(rows), rows[85])
	}
}

// TestWriters reads what is written back.
func TestWriters(t *testing.T) {
	c := New(sketch.Of(lantern), sketch.Of("h20 m8 h14 m12 h16 m6 h9 m10 h22"), sheet.Tool{Name: "holdfast", Version: "1"})
	var b bytes.Buffer
	if err := c.WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	schema, err := compiler.Compile("../../testdata/comparison.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []*Comparison{c, New(sketch.Of(lantern), sketch.Of("m90"), sheet.Tool{})} {
		var text bytes.Buffer
		if err := c.WriteJSON(&text); err != nil {
			t.Fatal(err)
		}
		value, err := jsonschema.UnmarshalJSON(&text)
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(value); err != nil {
			t.Error(err)
		}
	}
	b.Reset()
	if err := c.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 1+len(c.Beats) {
		t.Errorf("%v, %d rows", err, len(rows))
	}
	for _, width := range []int{0, 60, 200} {
		b.Reset()
		if err := c.WriteTable(&b, width); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(b.String()) {
			if w := text.StringWidth(strings.TrimRight(line, "\n")); w > max(width, sheet.MinWidth) && width != 0 {
				t.Errorf("width %d: a line of %d: %q", width, w, line)
			}
		}
		if !strings.Contains(b.String(), "-14") {
			t.Errorf("width %d: nothing said of the 14 frames:\n%s", width, b.String())
		}
	}
}
