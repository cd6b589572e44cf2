package main

import (
	"fmt"
	"slices"
)

// footNotes are the kinds of notes that rest on feet.
var footNotes = []string{"slide", "rooted-feet", "even-hops", "floaty-hop", "foot-pop", "step-rhythm"}

// judgeFootless looks at clips in which no foot is ever to be seen: they must
// give no contact, no flight and no note about feet. What a ball does counts
// for it.
func judgeFootless(t *trial) {
	if t.showsFeet() {
		return
	}
	found := ""
	if n := t.score.Contacts.Found; n > 0 {
		found += fmt.Sprintf("%d contacts ", n)
	}
	if n := t.score.Flights.Found; n > 0 {
		found += fmt.Sprintf("%d flights ", n)
	}
	for _, n := range t.sheet.Notes {
		if slices.Contains(footNotes, n.Kind) {
			found += n.Kind + " "
		}
	}
	t.score.Footless.count(found == "")
	if found != "" {
		t.fault("no feet", "nothing", found)
	}
}

// showsFeet reports whether the middle of a standing sole is ever in the
// picture.
func (t *trial) showsFeet() bool {
	for _, c := range t.truth.Contacts {
		for _, p := range c.Path {
			if p.X >= 0 && p.Y >= 0 && p.X <= float64(t.size.X) && p.Y <= float64(t.size.Y) {
				return true
			}
		}
	}
	return false
}
