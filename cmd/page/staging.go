package page

import (
	"fmt"
	"math"

	"holdfast/sheet"
)

// passages are which way figures come in and go out, where an edge is crossed.
func passages(s *sheet.Sheet) (list []item) {
	add := func(f sheet.Figure, p *sheet.Passage, verb, way string) {
		if p == nil || p.Side == sheet.SideNone {
			return
		}
		list = append(list, item{
			Start: p.Start, End: p.End, Class: "plain", Label: fmt.Sprintf("%d %s", f.ID, way),
			Text: said(fmt.Sprintf("figure %d %s %s", f.ID, verb, p.Side), span(p.Start, p.End)),
		})
	}
	for _, f := range s.Figures {
		add(f, f.Enters, "enters", "in")
		add(f, f.Leaves, "leaves", "out")
	}
	return list
}

// doing says whose doing an approach is.
func doing(a sheet.Approach) string {
	if len(a.By) > 1 {
		return "by both"
	}
	return "by figure " + a.Who()
}

// gaps are where the gap between two figures shrinks or grows.
func gaps(s *sheet.Sheet) (list []item) {
	for _, a := range s.Approaches {
		list = append(list, item{
			Start: a.Start, End: a.End, Class: "plain", Label: fmt.Sprintf("%d–%d %s", a.First, a.Second, a.Word()),
			Text: said(fmt.Sprintf("gap between figures %d and %d %s", a.First, a.Second, a.Word()), span(a.Start, a.End),
				fmt.Sprintf("by %.1f heights", math.Abs(a.Change)), doing(a)),
		})
	}
	return list
}
