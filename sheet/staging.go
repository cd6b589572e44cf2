package sheet

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// Sides of the picture at which figures come in and go out.
const (
	SideLeft   = "left"
	SideRight  = "right"
	SideTop    = "top"
	SideBottom = "bottom"
	SideNone   = "none" // it is there on the shot's first frame, or its last
)

var sides = []string{SideLeft, SideRight, SideTop, SideBottom, SideNone}

// A Passage is a figure's way into the picture, or out of it: the frames on which the
// edge cuts it. With SideNone both are the shot's first frame, or its last.
type Passage struct {
	Side  string `json:"side"`
	Start int    `json:"start"`
	End   int    `json:"end"`
}

// An Approach is a stretch over which the gap between two figures shrinks or grows.
type Approach struct {
	Shot   int     `json:"shot"`
	First  int     `json:"first"`  // id of a figure
	Second int     `json:"second"` // id of another
	Start  int     `json:"start"`
	End    int     `json:"end"`
	Change float64 `json:"change"` // of the gap between their middles across the picture, heights of the taller; below 0 it shrinks
	By     []int   `json:"by"`     // the figures whose doing it is
}

// staged reports whether any figure comes in or goes out.
func (s *Sheet) staged() bool {
	over := func(p *Passage) bool { return p != nil && p.Side != SideNone }
	return slices.ContainsFunc(s.Figures, func(f Figure) bool { return over(f.Enters) || over(f.Leaves) })
}

// checkPassage wants a known side, and frames of the figure's shot.
func (s *Sheet) checkPassage(i int, name string, f Figure, p *Passage) error {
	if p == nil {
		return nil
	}
	if !slices.Contains(sides, p.Side) {
		return bad(at("figures", i, name+".side"), "is %q", Visible(p.Side))
	}
	shot := s.Shots[f.Shot-1]
	switch {
	case p.End < p.Start:
		return bad(at("figures", i, name+".end"), "is %d, before the start %d", p.End, p.Start)
	case p.Start < shot.Start || p.End > shot.End:
		return bad(at("figures", i, name), "is on %d–%d, outside its shot", p.Start, p.End)
	}
	return nil
}

// checkApproaches wants two figures of one shot, frames of it, and who of both it is.
func (s *Sheet) checkApproaches() error {
	for i, a := range s.Approaches {
		for k, id := range []int{a.First, a.Second} {
			if err := s.inShot("approaches", i, a.Shot, id, a.Start, a.End); err != nil {
				return err
			}
			if id < 1 || s.Figures[id-1].Shot != a.Shot {
				return bad(at("approaches", i, []string{"first", "second"}[k]), "%d is no figure of shot %d", id, a.Shot)
			}
		}
		if a.First == a.Second {
			return bad(at("approaches", i, "second"), "is %d, as the first", a.Second)
		}
		both := []int{a.First, a.Second}
		if !slices.ContainsFunc([][]int{both[:1], both[1:], both}, func(by []int) bool { return slices.Equal(by, a.By) }) {
			return bad(at("approaches", i, "by"), "is %v", a.By)
		}
		if a.Change == 0 {
			return bad(at("approaches", i, "change"), "is 0")
		}
	}
	return nil
}

// writeStaging writes which way figures come and go, where any does, and where the gap
// between two shrinks or grows.
func (s *Sheet) writeStaging(p *page.Page) {
	right := text.AlignRight
	if s.staged() {
		c := []page.Column{{Name: "figure", Align: right}, {Name: "enters"}, {Name: "frames"}, {Name: "leaves"}, {Name: "frames"}}
		for _, f := range s.Figures {
			from, came := f.Enters.words("there")
			to, went := f.Leaves.words("stays")
			addRow(c, strconv.Itoa(f.ID), from, came, to, went)
		}
		p.Table(c)
	}
	if len(s.Approaches) > 0 {
		c := []page.Column{{Name: "figures"}, {Name: "gap"}, {Name: "frames"}, {Name: "heights", Align: right}, {Name: "by"}}
		for _, a := range s.Approaches {
			addRow(c, fmt.Sprintf("%d and %d", a.First, a.Second), a.Word(), span(a.Start, a.End), fmt.Sprintf("%.1f", math.Abs(a.Change)), a.Who())
		}
		p.Table(c)
	}
}

// words are a passage's side and frames; none is that for one without a side.
func (p *Passage) words(none string) (side, frames string) {
	switch {
	case p == nil:
		return "", ""
	case p.Side == SideNone:
		return none, ""
	}
	return p.Side, span(p.Start, p.End)
}

// Word says what the gap does: shrinks, grows.
func (a Approach) Word() string {
	if a.Change < 0 {
		return "shrinks"
	}
	return "grows"
}

// Who names the figures whose doing it is: "1", "both".
func (a Approach) Who() string {
	if len(a.By) == 1 {
		return strconv.Itoa(a.By[0])
	}
	return "both"
}
