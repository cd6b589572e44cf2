package main

import (
	"fmt"
	"math"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// riseWithin is how far off a rise may be, as a share of it, before it is
// listed.
const riseWithin = 0.1

// judgeFlights pairs true and found flights, takes the offsets of their first
// and last frames and the errors of their rises.
func judgeFlights(t *trial) {
	truth, found := t.truth.Flights, t.sheet.Flights
	partner := assign(len(truth), len(found), func(i, j int) float64 {
		o := overlap(truth[i].Start, truth[i].End, found[j].Start, found[j].End)
		if !t.mayBe(found[j].Figure, truth[i].Figure) || o < groundOverlap {
			return math.NaN()
		}
		return o
	})
	t.score.Flights.True += len(truth)
	for i, j := range partner {
		if j < 0 {
			t.fault("flight", describeTrueFlight(&truth[i]), "missed")
			continue
		}
		t.score.Flights.add(Counts{Found: 1, Matched: 1})
		t.compareFlight(&truth[i], &found[j])
	}
	for _, j := range unmatched(partner, len(found)) {
		if t.unlisted(&found[j]) {
			continue
		}
		t.score.Flights.Found++
		t.fault("flight", "none", describeFlight(&found[j]))
	}
}

func (t *trial) compareFlight(f *scene.Flight, g *sheet.Flight) {
	start, end := g.Start-f.Start, g.End-f.End
	t.score.Leaves = append(t.score.Leaves, start)
	t.score.Lands = append(t.score.Lands, end)
	off := math.Abs(g.RisePx-f.RisePx) / f.RisePx
	t.score.Rise = append(t.score.Rise, off)
	if abs(start) > edgeWindow || abs(end) > edgeWindow || off > riseWithin {
		t.fault("flight", describeTrueFlight(f), describeFlight(g))
	}
}

// unlisted reports whether a found flight is true although the truth does not
// list it, because the clip cuts it short or because a ball makes it: nothing
// of what it may belong to is on the ground meanwhile, and it is no piece of a
// flight that is listed.
func (t *trial) unlisted(g *sheet.Flight) bool {
	for _, f := range t.truth.Flights {
		if t.mayBe(g.Figure, f.Figure) && overlap(f.Start, f.End, g.Start, g.End) > 0 {
			return false
		}
	}
	for _, c := range t.truth.Contacts {
		if t.mayBe(g.Figure, c.Figure) && overlap(c.Start, c.End, g.Start, g.End) > 0 {
			return false
		}
	}
	for _, im := range t.truth.Impacts {
		if t.mayBe(g.Figure, im.Figure) && (im.Frame > float64(g.Start) && im.Frame < float64(g.End) || im.Last && im.Frame < float64(g.End)) {
			return false
		}
	}
	return true
}

func describeTrueFlight(f *scene.Flight) string {
	return fmt.Sprintf("%d-%d, rises %.1f px", f.Start, f.End, f.RisePx)
}

func describeFlight(f *sheet.Flight) string {
	return fmt.Sprintf("%d-%d, rises %.1f px", f.Start, f.End, f.RisePx)
}
