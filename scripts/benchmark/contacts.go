package main

import (
	"fmt"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// judgeContacts counts stands found and made up, and takes the offsets of their
// first and last frames. An edge that the shot gives away counts only when it
// was missed all the same.
func judgeContacts(t *trial) {
	for i := range t.stands {
		s := &t.stands[i]
		switch {
		case s.open || s.pair < 0 && t.excused(s):
		case s.pair < 0:
			t.score.Contacts.True++
			t.fault("contact", t.describeStand(s), "missed"+t.nearest(s))
		default:
			t.score.Contacts.add(Counts{1, 1, 1})
			t.compareContact(s, &t.sheet.Contacts[s.pair])
		}
	}
	for _, j := range t.extraContacts() {
		t.score.Contacts.Found++
		t.fault("contact", "none", describeContact(&t.sheet.Contacts[j]))
	}
}

func (t *trial) compareContact(s *stand, c *sheet.Contact) {
	start, end := c.Start-s.Start, c.End-s.End
	if start != 0 || !t.opensShot(s.Start) {
		t.score.Touches = append(t.score.Touches, start)
	}
	if end != 0 || !t.closesShot(s.End) {
		t.score.Lifts = append(t.score.Lifts, end)
	}
	if abs(start) > edgeWindow || abs(end) > edgeWindow {
		t.fault("contact", t.describeStand(s), describeContact(c))
	}
}

// nearest names the contact that shares most frames with a missed stand.
func (t *trial) nearest(s *stand) string {
	best, most := -1, 0.0
	for j := range t.sheet.Contacts {
		c := &t.sheet.Contacts[j]
		if o := overlap(s.Start, s.End, c.Start, c.End); o > most && s.distance(c) <= 2*spotReach {
			best, most = j, o
		}
	}
	if best < 0 {
		return ""
	}
	return ", nearest is " + describeContact(&t.sheet.Contacts[best])
}

func (t *trial) describeStand(s *stand) string {
	foot := map[scene.Side]string{scene.Near: "near", scene.Far: "far"}[s.Foot]
	return fmt.Sprintf("%s, %s foot %d-%d at %.0f, %.0f", s.figure.Name, foot, s.Start, s.End, s.X, s.Y)
}

func describeContact(c *sheet.Contact) string {
	return fmt.Sprintf("%s %d-%d at %.0f, %.0f", c.State, c.Start, c.End, c.X, c.Y)
}
