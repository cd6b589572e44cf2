package page

import (
	"fmt"
	"strings"

	"holdfast/sheet"
	"holdfast/sheet/follow"
)

// A noteLine is one entry of the page's list of notes: of the sheet, of what
// differs from a reference, or of what became of the notes on earlier passes.
type noteLine struct {
	sheet.Note
	State string // of a note that is followed
	Trail string // where it was in each pass
}

// notes are the lines of the page's list.
func (p *Page) notes() (list []noteLine) {
	switch {
	case p.Follow != nil:
		return followed(p.Follow)
	case p.Beside != nil:
		return p.Beside.differences()
	}
	for _, n := range p.Sheet.Notes {
		list = append(list, noteLine{Note: n})
	}
	return list
}

// noteWord is what the page calls them.
func (p *Page) noteWord() string {
	switch {
	case p.Follow != nil:
		return "Notes, pass by pass"
	case p.Beside != nil:
		return "Differences"
	}
	return "Notes"
}

// summary is what a person would say first.
func (p *Page) summary() []string {
	switch {
	case p.Follow != nil:
		return p.Follow.Summary
	case p.Beside != nil:
		return p.Beside.Comparison.Summary
	}
	return nil
}

// title is what the page is of.
func (p *Page) title() string {
	name := sheet.Visible(p.Sheet.Clip.Name)
	switch {
	case p.Follow != nil:
		return fmt.Sprintf("%s followed through %d passes", name, len(p.Follow.Passes))
	case p.Beside != nil:
		return fmt.Sprintf("%s against %s", name, sheet.Visible(p.Beside.Sheet.Clip.Name))
	}
	return name
}

// followed are notes through the passes, where they are in the last one.
func followed(h *follow.History) (list []noteLine) {
	for _, t := range h.Notes {
		list = append(list, noteLine{
			Note:  sheet.Note{ID: t.ID, Kind: t.Kind, Start: t.Start, End: t.End, Weight: t.Weight, Text: t.Text},
			State: t.State, Trail: trail(t.Seen),
		})
	}
	return list
}

// trail says where a note was: "pass 1: 20–31; pass 2: not there".
func trail(seen []*follow.Sighting) string {
	var parts []string
	for i, s := range seen {
		where := "not there"
		if s != nil {
			where = strings.TrimPrefix(strings.TrimPrefix(span(s.Start, s.End), "frames "), "frame ")
		}
		parts = append(parts, fmt.Sprintf("pass %d: %s", i+1, where))
	}
	return strings.Join(parts, "; ")
}

// noteItems lay notes on the axis, but for those that are gone.
func noteItems(lines []noteLine) (list []item) {
	for _, n := range lines {
		if n.State == follow.Fixed {
			continue
		}
		list = append(list, item{
			Start: n.Start, End: n.End, Class: "note " + n.Weight, Label: n.Kind,
			Text: said(fmt.Sprintf("note %d", n.ID), n.State, n.Weight) + fmt.Sprintf(": %s (%s)", sheet.Visible(n.Text), span(n.Start, n.End)),
		})
	}
	return list
}
