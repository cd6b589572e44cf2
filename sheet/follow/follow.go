// Package follow follows notes from pass to pass of one shot: which are fixed,
// which remain, got better or worse, which are new.
package follow

import (
	"cmp"
	"math"
	"slices"

	"holdfast/sheet"
	"holdfast/sheet/compare"
)

// Format and Version name the JSON this package writes.
const (
	Format  = "holdfast-follow-up"
	Version = 1
)

// A History is the notes of a shot over its passes, the oldest first.
type History struct {
	Format  string       `json:"format"`
	Version int          `json:"format_version"`
	Tool    sheet.Tool   `json:"tool"`
	Passes  []sheet.Clip `json:"passes"`
	// Related says of each pass but the first whether it shows the acting of the
	// one before. Where it does not, notes are held against each other by time
	// alone.
	Related []bool   `json:"related"`
	Summary []string `json:"summary"` // what a person would say aloud
	Notes   []Thread `json:"notes"`   // in the order of the last pass
	Remarks []Remark `json:"remarks"` // in the order of the last pass
}

// States of a note over the passes.
const (
	Fixed   = "fixed"   // it was there and is not in the last pass
	Remains = "remains" // as it was
	Better  = "better"
	Worse   = "worse"
	New     = "new"  // in the last pass only
	Back    = "back" // it was fixed, and is there again
)

// A Thread is one note through the passes.
type Thread struct {
	ID     int         `json:"id"` // from 1
	Kind   string      `json:"kind"`
	State  string      `json:"state"`
	Weight string      `json:"weight"` // when last seen
	Start  int         `json:"start"`  // in frames of the last pass: where it is, or would be
	End    int         `json:"end"`
	Text   string      `json:"text"` // when last seen
	Seen   []*Sighting `json:"seen"` // one for each pass; null where it is not there
}

// A Sighting is a note in one pass.
type Sighting struct {
	Note    int     `json:"note"` // its id there
	Start   int     `json:"start"`
	End     int     `json:"end"`
	Weight  string  `json:"weight"`
	Text    string  `json:"text"`
	Measure string  `json:"measure,omitempty"` // name of the number by which it gets worse
	Value   float64 `json:"value,omitempty"`
	less    bool    // less of it is worse
}

// A Remark is a reviewer's words about an earlier pass, or the last.
type Remark struct {
	Pass  int    `json:"pass"` // from 1
	Text  string `json:"text"`
	From  int    `json:"from"` // its frames in that pass
	To    int    `json:"to"`
	Start int    `json:"start"` // and in the last one
	End   int    `json:"end"`
}

const (
	// nearSeconds is how far apart two notes of a kind may be, beat against beat,
	// and be the same: half a step of a walk each way.
	nearSeconds = 0.5
	// changed is the factor from which a number is another: most are measured
	// within a tenth, in both passes.
	changed = 1.2
)

// Passes follows the notes of passes, the oldest first; there must be two at least.
func Passes(passes []*sheet.Sheet, tool sheet.Tool) *History {
	h := &History{Format: Format, Version: Version, Tool: tool, Related: []bool{}, Notes: []Thread{}, Remarks: []Remark{}}
	for i, s := range passes {
		h.Passes = append(h.Passes, s.Clip)
		if i > 0 {
			c := compare.New(passes[i-1], s, tool)
			h.Related = append(h.Related, c.Related)
			h.carry(func(frame int) int { return carried(c, frame) })
		}
		h.see(i, s)
	}
	h.finish()
	return h
}

// carried is where a frame of a pass is in the next.
func carried(c *compare.Comparison, frame int) int {
	at, ok := c.PassFrame(frame)
	if !ok { // not related: by time
		seconds := c.Reference.FPS.Seconds(frame - c.Reference.FirstFrame)
		at = float64(c.Pass.FirstFrame) + seconds*c.Pass.FPS.Float()
	}
	return min(max(int(math.Round(at)), c.Pass.FirstFrame), c.Pass.Last())
}

// carry moves the places of all notes and remarks on to the next pass.
func (h *History) carry(next func(frame int) int) {
	for i := range h.Notes {
		h.Notes[i].Start, h.Notes[i].End = next(h.Notes[i].Start), next(h.Notes[i].End)
	}
	for i := range h.Remarks {
		h.Remarks[i].Start, h.Remarks[i].End = next(h.Remarks[i].Start), next(h.Remarks[i].End)
	}
}

// see takes up the notes and remarks of a pass, those that were there before as
// what they were.
func (h *History) see(pass int, s *sheet.Sheet) {
	near := int(math.Round(nearSeconds * s.Clip.FPS.Float()))
	known := len(h.Notes)
	thread := h.match(s.Notes, near)
	for i, n := range s.Notes {
		t := thread[i]
		if t < 0 {
			h.Notes = append(h.Notes, Thread{Kind: n.Kind, Seen: make([]*Sighting, pass)})
			t = len(h.Notes) - 1
		}
		h.Notes[t].see(n)
	}
	for i := range h.Notes[:known] {
		if len(h.Notes[i].Seen) == pass {
			h.Notes[i].Seen = append(h.Notes[i].Seen, nil)
		}
	}
	for _, r := range s.Remarks {
		h.Remarks = append(h.Remarks, Remark{pass + 1, r.Text, r.Start, r.End, r.Start, r.End})
	}
}

// match returns which thread each note carries on, -1 for none: one to one, the
// nearest first.
func (h *History) match(notes []sheet.Note, near int) []int {
	type candidate struct{ note, thread, apart, off int }
	var list []candidate
	for i, n := range notes {
		for j, t := range h.Notes {
			apart := max(0, n.Start-t.End, t.Start-n.End)
			if n.Kind == t.Kind && apart <= near {
				off := max(n.Start-t.Start, t.Start-n.Start) + max(n.End-t.End, t.End-n.End)
				list = append(list, candidate{i, j, apart, off})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Or(a.apart-b.apart, a.off-b.off) })
	thread := slices.Repeat([]int{-1}, len(notes))
	taken := map[int]bool{}
	for _, c := range list {
		if thread[c.note] < 0 && !taken[c.thread] {
			thread[c.note], taken[c.thread] = c.thread, true
		}
	}
	return thread
}

// see takes a note up into its thread.
func (t *Thread) see(n sheet.Note) {
	s := &Sighting{Note: n.ID, Start: n.Start, End: n.End, Weight: n.Weight, Text: n.Text}
	if name, value, less, ok := n.Gauged(); ok {
		s.Measure, s.Value, s.less = name, value, less
	}
	t.Seen = append(t.Seen, s)
	t.Start, t.End, t.Weight, t.Text = n.Start, n.End, n.Weight, n.Text
}

// finish says what became of each note, and puts all in the order of the last
// pass.
func (h *History) finish() {
	for i := range h.Notes {
		h.Notes[i].State = h.Notes[i].state()
	}
	slices.SortStableFunc(h.Notes, func(a, b Thread) int { return cmp.Or(a.Start-b.Start, a.End-b.End) })
	for i := range h.Notes {
		h.Notes[i].ID = i + 1
	}
	slices.SortStableFunc(h.Remarks, func(a, b Remark) int { return cmp.Or(a.Start-b.Start, a.Pass-b.Pass) })
	h.Summary = h.say()
}

// state compares the last pass with when the note was seen before.
func (t Thread) state() string {
	last := len(t.Seen) - 1
	now := t.Seen[last]
	if now == nil {
		return Fixed
	}
	if t.Seen[last-1] == nil {
		for _, s := range t.Seen[:last] {
			if s != nil {
				return Back
			}
		}
		return New
	}
	return now.against(t.Seen[last-1])
}

// against says whether a note is worse than it was: by its weight, then by its
// number.
func (s *Sighting) against(before *Sighting) string {
	switch {
	case s.Weight == sheet.WeightFix && before.Weight == sheet.WeightLook:
		return Worse
	case s.Weight == sheet.WeightLook && before.Weight == sheet.WeightFix:
		return Better
	case s.Measure == "" || s.Measure != before.Measure:
		return Remains
	}
	now, then := s.Value, before.Value
	if s.less {
		now, then = then, now
	}
	switch {
	case now > changed*then:
		return Worse
	case then > changed*now:
		return Better
	}
	return Remains
}
