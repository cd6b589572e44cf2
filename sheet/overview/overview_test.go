package overview

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"holdfast/sheet"
)

func TestPattern(t *testing.T) {
	for _, c := range []struct {
		pattern, name, shot string
		pass                int
		ref, ok             bool
	}{
		{"{shot}_v{pass}", "sq010_sh020_v003", "sq010_sh020", 3, false, true},
		{"{shot}_v{pass}", "sq010_V12", "sq010", 12, false, true},
		{"{shot}_v{pass}", "sq010_vref", "sq010", 0, true, true},
		{"{shot}_v{pass}", "sq010", "sq010", 0, false, false},
		{"{shot}_v{pass}", "in/a.b/sq010_ref", "sq010", 0, true, true}, // whatever the pattern
		{"{shot}_v{pass}", "sq010 Reference", "sq010", 0, true, true},
		{"{shot}_v{pass}", "ref", "ref", 0, false, false},
		{"{shot}_v{pass}", "walk_v2/kick", "kick", 0, false, false}, // no folder of another name
		{"v{pass}/{shot}", "in/v12/sq010", "sq010", 12, false, true},
		{"v{pass}/{shot}", "in/ref/sq010_ref", "sq010", 0, true, true},
		{"{shot}_v{pass}", "_v2", "_v2", 0, false, false},
		{"{pass}-{shot}", "2-a.b", "a.b", 2, false, true},
		{"{pass}-{shot}", "reference-a", "a", 0, true, true},
		{"({shot})+{pass}", "(a)+7", "a", 7, false, true}, // nothing in it is a pattern but the two
		{"{shot}_{pass}", "a_12345678901", "a_12345678901", 0, false, false},
	} {
		p, err := ParsePattern(c.pattern)
		if err != nil {
			t.Fatal(err)
		}
		shot, pass, ref, ok := p.split(c.name)
		if shot != c.shot || pass != c.pass || ref != c.ref || ok != c.ok {
			t.Errorf("%s of %s: %q %d %v %v", c.pattern, c.name, shot, pass, ref, ok)
		}
	}
	for _, bad := range []string{"", "{shot}", "{pass}", "{shot}{shot}{pass}", "shot_pass"} {
		if _, err := ParsePattern(bad); err == nil {
			t.Errorf("%q is taken for a pattern", bad)
		}
	}
}

func TestGuess(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  string
	}{
		{[]string{"a_v1", "a_v2", "b_v1"}, "{shot}_v{pass}"},
		{[]string{"a-pass1", "a-pass2", "b_v1"}, "{shot}-pass{pass}"},
		{[]string{"walk_1", "walk_2", "hop_1", "hop_2", "x_v1", "x_v2"}, "{shot}_{pass}"},
		{[]string{"a_v1", "b_v1", "c"}, ""},
		{[]string{"a_v1", "a_vref"}, "{shot}_v{pass}"},
		{[]string{"in/v1/a", "in/v2/a", "in/v2/b"}, "v{pass}/{shot}"},
		{[]string{"a_v1", "a_ref"}, "{shot}_v{pass}"},
		{[]string{"a", "a_ref"}, ""},
		{nil, ""},
	} {
		if got := Guess(c.names).String(); got != c.want {
			t.Errorf("%v: %q, want %q", c.names, got, c.want)
		}
	}
}

// ended is a sheet of a clip with holds and moves by turns, each of some frames, and
// notes on some of its frames, of a weight each.
func ended(name string, beats []int, notes map[int]string) *sheet.Sheet {
	s := &sheet.Sheet{Clip: sheet.Clip{Name: name, Width: 64, Height: 48, FPS: sheet.Rate{Num: 24, Den: 1}, FirstFrame: 1, SHA256: strings.Repeat("0", 64)}}
	for i, n := range beats {
		b := sheet.Beat{ID: i + 1, Kind: sheet.KindHold, Start: s.Clip.Frames + 1, End: s.Clip.Frames + n, Frames: n}
		if i%2 == 1 {
			size, peak := 0.5, b.Start+n/2
			b.Kind, b.Size, b.Peak = sheet.KindMove, &size, &peak
		}
		for k := range n {
			v := 0.0
			if b.Kind == sheet.KindMove {
				v = 0.02 + 0.03*float64(min(k, n-k))/float64(n)
			}
			s.Curve.Motion = append(s.Curve.Motion, v)
			s.Curve.Camera = append(s.Curve.Camera, [4]float64{0, 0, 0, 1})
		}
		s.Beats = append(s.Beats, b)
		s.Clip.Frames += n
	}
	s.Clip.Seconds = float64(s.Clip.Frames) / 24
	s.Shots = []sheet.Shot{{ID: 1, Start: 1, End: s.Clip.Frames}}
	for frame, weight := range notes {
		s.Notes = append(s.Notes, sheet.Note{ID: len(s.Notes) + 1, Kind: "slide", Start: frame, End: frame + 3, Weight: weight, Text: "it slides"})
	}
	slices.SortFunc(s.Notes, func(a, b sheet.Note) int { return a.Start - b.Start })
	return s
}

func TestOverview(t *testing.T) {
	beats := []int{12, 9, 20, 7, 15, 11, 18, 8, 14}
	sheets := map[string]*sheet.Sheet{
		"hop_v1":   ended("hop_v1.mp4", beats, map[int]string{15: sheet.WeightFix, 60: sheet.WeightLook}),
		"hop_v2":   ended("hop_v2.mp4", beats, map[int]string{60: sheet.WeightLook}),
		"hop_v10":  ended("hop_v10.mp4", beats, map[int]string{60: sheet.WeightLook, 90: sheet.WeightLook}),
		"hop_vref": ended("hop_vref.mp4", beats, nil),
		"walk_v1":  ended("walk_v1.mp4", beats, map[int]string{15: sheet.WeightFix}),
		"alone":    ended("alone.mp4", beats[:3], nil),
	}
	var items []Item
	for _, name := range []string{"alone", "hop_v1", "hop_v10", "hop_v2", "hop_vref", "walk_v1"} {
		items = append(items, Item{Name: name, Path: "in/" + name + ".mp4"})
	}
	items = append(items,
		Item{Name: "walk_v2", Path: "=in/walk_v2.mp4", Same: "hop_v1"}, // a pass that is the same as another clip
		Item{Name: "copy", Path: "in/copy.mp4", Same: "alone"},
		Item{Name: "bad", Path: "in/bad.mp4", Fail: &Fail{"bad.mp4 is empty", "make it again"}})
	asked := 0
	read := func(name string) (*sheet.Sheet, error) {
		asked++
		if s := sheets[name]; s != nil {
			return s, nil
		}
		return nil, errors.New("no sheet of " + name)
	}
	p, err := ParsePattern("{shot}_v{pass}")
	if err != nil {
		t.Fatal(err)
	}
	o, err := New(items, p, sheet.Tool{Name: "test"}, read)
	if err != nil {
		t.Fatal(err)
	}
	var order []string
	rows := map[string]Row{}
	for _, r := range o.Rows {
		order, rows[r.Name] = append(order, r.Name), r
	}
	// To fix; new since the pass before; worth a look; nothing; older passes, to fix first; the reference.
	want := []string{"walk_v2", "hop_v10", "alone", "hop_v1", "walk_v1", "hop_v2", "hop_vref"}
	if !slices.Equal(order, want) {
		t.Errorf("in the order %v, want %v", order, want)
	}
	if asked != len(want) {
		t.Errorf("asked for %d sheets, want %d", asked, len(want))
	}
	first, last := rows["hop_v2"].Since, rows["hop_v10"].Since
	if first == nil || *first != (Change{Name: "hop_v1", Related: true, Fixed: 1, Still: 1}) {
		t.Errorf("since the first pass: %+v", first)
	}
	if last == nil || *last != (Change{Name: "hop_v2", Related: true, Still: 1, New: 1}) {
		t.Errorf("since the second pass: %+v", last)
	}
	if a := rows["hop_v10"].Against; a == nil || a.Name != "hop_vref" || !a.Related || a.Changes != 0 || a.Likeness < 0.99 {
		t.Errorf("against the reference: %+v", a)
	}
	if r := rows["hop_v10"]; !r.Newest || r.Beats != 9 || r.Holds != 5 || r.Held != 79 || r.Moves != 4 || r.Look != 2 || r.Fix != 0 {
		t.Errorf("counted %+v", r)
	}
	if rows["hop_v2"].Newest || rows["hop_vref"].Newest || !rows["alone"].Newest {
		t.Error("the newest passes are others")
	}
	if len(o.Failed) != 1 || len(o.Same) != 1 || o.Same[0].Name != "copy" {
		t.Errorf("failed %v, same %v", o.Failed, o.Same)
	}
	wantTable(t, o, 1+len(items))
}

// wantTable reads the table as a spreadsheet would.
func wantTable(t *testing.T, o *Overview, lines int) {
	t.Helper()
	var b bytes.Buffer
	if err := o.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	table, err := csv.NewReader(&b).ReadAll() // it wants as many cells in each line
	if err != nil || len(table) != lines {
		t.Fatalf("%d lines, %v", len(table), err)
	}
	at := func(line int, name string) string { return table[line][slices.Index(table[0], name)] }
	if got := at(1, "clip"); got != "'=in/walk_v2.mp4" {
		t.Errorf("a formula is alive: %s", got)
	}
	for name, want := range map[string]string{"results": "hop_v10", "pass": "10", "since": "hop_v2", "still": "1", "new": "1", "reference": "hop_vref", "likeness": "1", "error": ""} {
		if got := at(2, name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	if got := at(lines-1, "error"); got != "bad.mp4 is empty" {
		t.Errorf("the last error is %q", got)
	}
}

func TestUnreadableSheet(t *testing.T) {
	_, err := New([]Item{{Name: "a"}}, Pattern{}, sheet.Tool{}, func(string) (*sheet.Sheet, error) { return nil, fmt.Errorf("gone") })
	if err == nil || err.Error() != "gone" {
		t.Errorf("error %v", err)
	}
}

func TestNameOf(t *testing.T) {
	for path, want := range map[string]string{
		"in/hop_v2.mp4": "in/hop_v2", "a.b/hop.v2.mov": "a.b/hop.v2", "hop_v2.[1001-1096].png": "hop_v2", "hop_v2_%04d.exr": "hop_v2", "hop": "hop",
	} {
		if got := NameOf(path); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

// Two who do one exercise in folders of their own have a shot each, and share the
// reference; an exercise that one of them does alone needs no folder to be told.
func TestShotsOfOneNameInTwoFolders(t *testing.T) {
	beats := []int{12, 9, 20, 7, 15, 11, 18, 8, 14}
	p, err := ParsePattern("{shot}_v{pass}")
	if err != nil {
		t.Fatal(err)
	}
	var items []Item
	for i, path := range []string{"in/anna/walk_v1.mp4", "in/anna/walk_v2.mp4", "in/ben/Walk_v1.mp4", "in/ben/walk_v2.mp4", "in/ben/hop_v1.mp4", "in/ben/hop_v2.mp4", "in/given/walk_ref.mp4"} {
		items = append(items, Item{Name: fmt.Sprint(i), Path: path})
	}
	o, err := New(items, p, sheet.Tool{Name: "test"}, func(name string) (*sheet.Sheet, error) { return ended(name+".mp4", beats, nil), nil })
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]string{}
	for _, r := range o.Rows {
		text := fmt.Sprintf("%s %d", r.Shot, r.Pass)
		if r.Since != nil {
			text += " since " + r.Since.Name
		}
		if r.Against != nil {
			text += " against " + r.Against.Name
		}
		if r.Newest {
			text += " newest"
		}
		got[r.Name] = text
	}
	want := map[string]string{
		"0": "anna/walk 1 against 6", "1": "anna/walk 2 since 0 against 6 newest",
		"2": "ben/Walk 1 against 6", "3": "ben/walk 2 since 2 against 6 newest",
		"4": "hop 1", "5": "hop 2 since 4 newest", "6": "walk 0 newest", // nothing of its own shot comes after it
	}
	if !maps.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
