// Package overview sums up the sheets of many clips, a row each, for a reviewer to
// see where to look first: shot by shot, with what became of the notes on the pass
// before.
package overview

import (
	"cmp"
	"slices"
	"strings"

	"holdfast/sheet"
	"holdfast/sheet/compare"
	"holdfast/sheet/follow"
)

// An Item is a clip that goes into an overview.
type Item struct {
	Name string // of its results
	Path string // of the clip
	Same string // the name of another item that has the same content
	Fail *Fail  // why it has no sheet; nil: it has one
}

// A Fail says why a clip has no sheet.
type Fail struct{ Error, Hint string }

// An Overview is what is told of many clips.
type Overview struct {
	Pattern Pattern
	Rows    []Row // where to look first, first
	Failed  []Row // in the order of their names
	Same    []Row // likewise; those that are passes of a shot are among Rows
}

// A Row is what is told of a clip.
type Row struct {
	Item
	Shot      string
	Pass      int  // 0: not known, or the reference
	Reference bool // it is what its shot is held against
	Newest    bool // no later pass of its shot has a sheet
	Clip      sheet.Clip
	Shots     int
	Beats     int
	Holds     int
	Held      int // frames
	Moves     int
	Slides    int
	Hops      int
	Fix, Look int        // notes by weight
	Kinds     []string   // of the notes, the heaviest first, each once
	Since     *Change    // since the pass before; nil where there is none
	Against   *Agreement // with the reference; nil where there is none
}

// A Change is what became of the notes since the pass before.
type Change struct {
	Name                             string // of that pass
	Related                          bool   // else nothing below is known
	Fixed, Better, Still, Worse, New int
}

// An Agreement is how a pass agrees with its reference.
type Agreement struct {
	Name     string
	Related  bool // else nothing below is known
	Likeness float64
	Changes  int // differences
}

// New sums up items. read gives the sheet of one that has one; it is asked shot by
// shot, so that no more sheets are held than a shot has passes.
func New(items []Item, p Pattern, tool sheet.Tool, read func(name string) (*sheet.Sheet, error)) (*Overview, error) {
	o := &Overview{Pattern: p}
	told := p.read(items)
	shots, names := map[string][]Row{}, map[string]string{} // by shot, with its name
	references := map[string]Item{}                         // by the name of the shot
	failed := map[string]bool{}
	for _, item := range items {
		failed[item.Name] = item.Fail != nil
	}
	var order []string
	for i, item := range items {
		row := Row{Item: item, Shot: told[i].shot, Pass: told[i].pass, Reference: told[i].reference}
		switch {
		case item.Same != "" && (!told[i].named || failed[item.Same]):
			// As a pass of a shot it is shown with the sheet of the other.
			o.Same = append(o.Same, row)
		case item.Fail != nil:
			o.Failed = append(o.Failed, row)
		default:
			if row.Reference {
				references[told[i].name] = item
			}
			key := strings.ToLower(row.Shot)
			names[key] = told[i].name
			if shots[key] == nil {
				order = append(order, key)
			}
			shots[key] = append(shots[key], row)
		}
	}
	for _, key := range order {
		var shared *Item // a reference that is none of the shot's own rows
		if held, ok := references[names[key]]; ok && key != names[key] {
			shared = &held
		}
		rows, err := sumUp(shots[key], shared, tool, read)
		if err != nil {
			return nil, err
		}
		o.Rows = append(o.Rows, rows...)
	}
	slices.SortStableFunc(o.Rows, first)
	byName := func(a, b Row) int { return strings.Compare(a.Name, b.Name) }
	slices.SortFunc(o.Failed, byName)
	slices.SortFunc(o.Same, byName)
	return o, nil
}

// sumUp fills in the rows of a shot. One without a reference of its own is held
// against the shared one, if there is one.
func sumUp(rows []Row, shared *Item, tool sheet.Tool, read func(name string) (*sheet.Sheet, error)) ([]Row, error) {
	slices.SortFunc(rows, func(a, b Row) int {
		if a.Reference != b.Reference { // it comes first
			return cmp.Compare(b.order(), a.order())
		}
		return cmp.Or(cmp.Compare(a.Pass, b.Pass), strings.Compare(a.Name, b.Name))
	})
	var held, before *sheet.Sheet
	var heldName, beforeName string
	if own := len(rows) > 0 && rows[0].Reference; shared != nil && !own {
		var err error
		if held, err = read(cmp.Or(shared.Same, shared.Name)); err != nil {
			return nil, err
		}
		heldName = shared.Name
	}
	for i := range rows {
		r := &rows[i]
		s, err := read(cmp.Or(r.Same, r.Name))
		if err != nil {
			return nil, err
		}
		r.count(s)
		r.Newest = i == len(rows)-1 || r.Pass == 0 && !r.Reference
		if r.Reference {
			held, heldName = s, r.Name
			continue
		}
		if before != nil && r.Pass > 0 {
			r.Since = changed(beforeName, before, s, tool)
		}
		if held != nil {
			c := compare.New(held, s, tool)
			r.Against = &Agreement{heldName, c.Related, c.Likeness, len(c.Differences)}
		}
		if r.Pass > 0 {
			before, beforeName = s, r.Name
		}
	}
	return rows, nil
}

// order puts references behind everything else.
func (r Row) order() int {
	if r.Reference {
		return 1
	}
	return 0
}

// count fills in what the sheet says.
func (r *Row) count(s *sheet.Sheet) {
	r.Clip, r.Shots, r.Beats, r.Hops = s.Clip, len(s.Shots), len(s.Beats), len(s.Flights)
	for _, b := range s.Beats {
		if b.Kind == sheet.KindHold {
			r.Holds, r.Held = r.Holds+1, r.Held+b.Frames
		} else {
			r.Moves++
		}
	}
	for _, c := range s.Contacts {
		if c.State == sheet.StateSlide {
			r.Slides++
		}
	}
	var fix, look []string
	for _, n := range s.Notes {
		if n.Weight == sheet.WeightFix {
			r.Fix, fix = r.Fix+1, append(fix, n.Kind)
		} else {
			r.Look, look = r.Look+1, append(look, n.Kind)
		}
	}
	for _, kind := range append(fix, look...) {
		if !slices.Contains(r.Kinds, kind) {
			r.Kinds = append(r.Kinds, kind)
		}
	}
}

// changed holds a pass against the one before.
func changed(name string, before, s *sheet.Sheet, tool sheet.Tool) *Change {
	h := follow.Passes([]*sheet.Sheet{before, s}, tool)
	c := &Change{Name: name, Related: !slices.Contains(h.Related, false)}
	for _, t := range h.Notes {
		switch t.State {
		case follow.Fixed:
			c.Fixed++
		case follow.Better:
			c.Better++
		case follow.Worse:
			c.Worse++
		case follow.New, follow.Back:
			c.New++
		default:
			c.Still++
		}
	}
	return c
}

// first puts rows in the order in which a reviewer should look at them: the newest
// passes before older ones, among them those with more that wants a change, that
// has got worse or is worth a look; references last.
func first(a, b Row) int {
	newest := func(r Row) int {
		if r.Newest {
			return 1
		}
		return 0
	}
	return cmp.Or(
		cmp.Compare(a.order(), b.order()),
		cmp.Compare(newest(b), newest(a)),
		cmp.Compare(b.Fix, a.Fix),
		cmp.Compare(b.worse(), a.worse()),
		cmp.Compare(b.Look, a.Look),
		cmp.Compare(b.Slides, a.Slides),
		strings.Compare(a.Name, b.Name),
	)
}

// worse is how many notes came up or grew since the pass before.
func (r Row) worse() int {
	if r.Since == nil {
		return 0
	}
	return r.Since.Worse + r.Since.New
}
