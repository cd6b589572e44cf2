package main

import (
	"fmt"
	"math"

	"holdfast/sheet"
)

// Slips in figure heights between which eyes disagree: from slideMust on a
// stand is a slide, below slideNever it is none, between the two both words are
// right.
const (
	slideMust  = 0.04
	slideNever = 0.02
)

// slipWithin is how far off a slip may be, as a share of it, before it is
// listed.
const slipWithin = 0.1

// judgeSlides counts true and found slides among the stands. What must be found
// goes by the way that the picture shows, what must not be by that over the
// ground: a foot that slides straight at the camera hardly shows it.
func judgeSlides(t *trial) {
	for i := range t.stands {
		s := &t.stands[i]
		if s.open || s.pair < 0 && t.excused(s) {
			continue
		}
		t.judgeSlide(s)
	}
	for _, j := range t.extraContacts() {
		if c := &t.sheet.Contacts[j]; c.State == sheet.StateSlide {
			t.score.Slides.Found++
			t.fault("slide", "no contact", describeSlide(c))
		}
	}
}

func (t *trial) judgeSlide(s *stand) {
	must, never := s.seen >= slideMust, s.ground < slideNever
	want, got := fmt.Sprintf("%s slips %.3f", t.describeStand(s), s.SlipShare), "no contact"
	found := false
	if s.pair >= 0 {
		c := &t.sheet.Contacts[s.pair]
		got, found = describeSlide(c), c.State == sheet.StateSlide
	}
	switch {
	case must && found:
		t.score.Slides.add(Counts{1, 1, 1})
		t.compareSlip(s, &t.sheet.Contacts[s.pair], want)
	case must:
		t.score.Slides.True++
		t.fault("slide", want, got)
	case never && found:
		t.score.Slides.Found++
		t.fault("slide", want, got)
	}
}

// compareSlip takes the error of a slip across the picture, as a share of it.
func (t *trial) compareSlip(s *stand, c *sheet.Contact, want string) {
	if math.Abs(s.SlipShare) < slideMust {
		return // it goes into the depth
	}
	off := (c.SlipPx - s.SlipPx) / math.Abs(s.SlipPx)
	t.score.Slip = append(t.score.Slip, math.Abs(off))
	if math.Abs(off) > slipWithin {
		t.fault("slip", fmt.Sprintf("%s, %.1f px", want, s.SlipPx), fmt.Sprintf("%.1f px in %d-%d", c.SlipPx, c.Start, c.End))
	}
}

func describeSlide(c *sheet.Contact) string {
	return fmt.Sprintf("%s, slips %.3f", describeContact(c), c.SlipShare)
}
