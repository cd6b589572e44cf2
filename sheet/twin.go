package sheet

import (
	"fmt"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// LeftHalf and RightHalf name the sides of a figure, as the screen has them, that nobody
// marked.
const (
	LeftHalf  = "left half"
	RightHalf = "right half"
)

// A Twin is a stretch in which two marked parts do the same, or both halves of a figure.
type Twin struct {
	Shot     int     `json:"shot"`
	First    string  `json:"first"` // names of the parts; LeftHalf and RightHalf need none
	Second   string  `json:"second"`
	Start    int     `json:"start"`
	End      int     `json:"end"`
	Way      string  `json:"way"`      // TwinMirrored or TwinParallel
	Likeness float64 `json:"likeness"` // correlation of their ways, 1 for the same
	Offset   float64 `json:"offset"`   // frames by which the second is later
}

// Ways of twins.
const (
	TwinMirrored = "mirrored" // left against right
	TwinParallel = "parallel"
)

func (s *Sheet) completeTwins() {
	for i := range s.Twins {
		t := &s.Twins[i]
		t.Likeness, t.Offset = round(t.Likeness, shareDigits), round(t.Offset, frameDigits)
	}
}

// halves reports whether twins are the halves of a figure with nothing marked.
func (s *Sheet) halves(t Twin) bool {
	return t.First == LeftHalf && t.Second == RightHalf && !s.hasPart(t.Shot, LeftHalf) && !s.hasPart(t.Shot, RightHalf)
}

// checkTwins wants two parts of the shot, or its halves, and numbers that can be.
func (s *Sheet) checkTwins() error {
	for i, t := range s.Twins {
		halves := s.halves(t)
		if err := s.inShot("twins", i, t.Shot, 0, t.Start, t.End); err != nil {
			return err
		}
		switch {
		case !halves && !s.hasPart(t.Shot, t.First):
			return bad(at("twins", i, "first"), "%q is no part of shot %d", Visible(t.First), t.Shot)
		case !halves && !s.hasPart(t.Shot, t.Second):
			return bad(at("twins", i, "second"), "%q is no part of shot %d", Visible(t.Second), t.Shot)
		case t.Way != TwinMirrored && t.Way != TwinParallel:
			return bad(at("twins", i, "way"), "is %q", Visible(t.Way))
		case !(t.Likeness >= 0 && t.Likeness <= 1):
			return bad(at("twins", i, "likeness"), "is not from 0 to 1")
		}
	}
	return nil
}

func (s *Sheet) hasPart(shot int, name string) bool {
	for _, p := range s.Parts {
		if p.Shot == shot && p.Name == name {
			return true
		}
	}
	return false
}

// writeTwins writes which parts do the same.
func (s *Sheet) writeTwins(p *page.Page) {
	if len(s.Twins) == 0 {
		return
	}
	right := text.AlignRight
	c := []page.Column{{Name: "twins"}, {Name: "frames"}, {Name: "way"}, {Name: "alike", Align: right}, {Name: "offset", Align: right}}
	for _, t := range s.Twins {
		addRow(c, Visible(t.First)+", "+Visible(t.Second), span(t.Start, t.End), t.Way, wholePercent(t.Likeness), fmt.Sprintf("%+.1f f", t.Offset))
	}
	p.Table(c)
}
