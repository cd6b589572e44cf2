package sheet

import (
	"fmt"
	"slices"
	"strings"
)

// Reasons why nothing is known of what a figure does by itself.
const (
	UnknownHidden   = "hidden"    // something passes before the lens
	UnknownCrossing = "crossing"  // another figure is before or behind it
	UnknownNotFound = "not found" // it is not told from its background
	UnknownShort    = "short"     // known for less than a hold
)

var unknownReasons = []string{UnknownHidden, UnknownCrossing, UnknownNotFound, UnknownShort}

// An Unknown is a stretch of frames in which nothing is known of what a figure does
// by itself: it has no beats there.
type Unknown struct {
	Start int    `json:"start"`
	End   int    `json:"end"`
	Why   string `json:"why"`
}

// Leading returns the beats that stand for the whole picture: those of figure 0 in
// shots that have them, all of other shots.
func (s *Sheet) Leading() []Beat {
	whole := map[int]bool{}
	for _, b := range s.Beats {
		whole[b.Shot] = whole[b.Shot] || b.Figure == 0
	}
	return slices.DeleteFunc(slices.Clone(s.Beats), func(b Beat) bool { return whole[b.Shot] && b.Figure != 0 })
}

// checkUnknown wants the stretches of a figure inside its shot and in order, and each
// with its reason.
func (s *Sheet) checkUnknown(i int, f Figure) error {
	shot := s.Shots[f.Shot-1]
	last := shot.Start - 1
	for k, u := range f.Unknown {
		list := at("figures", i, "unknown")
		if err := within(list, k, u.Start, u.End, shot.Start, shot.End); err != nil {
			return err
		}
		if u.Start <= last {
			return bad(at(list, k, "start"), "is %d: the stretch before ends on %d", u.Start, last)
		}
		if !slices.Contains(unknownReasons, u.Why) {
			return bad(at(list, k, "why"), "is %q", Visible(u.Why))
		}
		last = u.End
	}
	return nil
}

// unknown reports whether the sheet says of all frames from one to another that
// nothing is known of a figure.
func (s *Sheet) unknown(figure, from, to int) bool {
	if figure < 1 || figure > len(s.Figures) {
		return false
	}
	for _, u := range s.Figures[figure-1].Unknown {
		if u.Start <= from && from <= u.End {
			from = u.End + 1
		}
	}
	return from > to
}

// unknownLines says of each figure where nothing is known of it: "Figure 2 is not
// known by itself on frames 11–20 (crossing)".
func (s *Sheet) unknownLines() []string {
	var lines []string
	for _, f := range s.Figures {
		var spans []string
		for _, u := range f.Unknown {
			spans = append(spans, fmt.Sprintf("%s (%s)", span(u.Start, u.End), u.Why))
		}
		if len(spans) > 0 {
			lines = append(lines, fmt.Sprintf("Figure %d is not known by itself on frames %s", f.ID, strings.Join(spans, ", ")))
		}
	}
	return lines
}
