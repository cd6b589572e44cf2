package main

import (
	"math"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// What the sheet says of feet and balls is read from its own arrays, with
// frames from 0 and displayed pixels.

// spotReach is how far from the middle of a true stand, in figure heights, a
// found one may lie: a foot is 0.152 long (Drillis & Contini 1966), so what
// lies farther off touches the ground beside the foot.
const spotReach = 0.15

// spotReachTwins is how near to each other, in figure heights, the middles of
// two soles are that make one spot in the picture: half a foot's length. One
// then covers most of the other, and a sheet may tell of one or of both.
const spotReachTwins = 0.076

// cutShort is the length in seconds under which a stand that the shot's start
// or end cuts short counts neither way: nothing tells it from a foot on its
// way.
const cutShort = 0.125

// groundOverlap is the least share of the frames of two stands, or flights,
// together that both must have, as of holds.
const groundOverlap = holdOverlap

// A stand is a true contact as it is scored.
type stand struct {
	*scene.Contact
	figure *scene.FigureTruth
	open   bool    // not to be seen whole: counts neither found nor missed
	twin   int     // index of the stand on the same spot at the same time, or -1
	seen   float64 // slip as seen in the picture, figure heights, no sign
	ground float64 // slip over the ground, figure heights, no sign
	pair   int     // index of the contact found for it, or -1
}

// pairStands lists the true stands and finds a contact for each.
func (t *trial) pairStands() {
	t.stands = make([]stand, len(t.truth.Contacts))
	for i := range t.stands {
		t.stands[i] = t.newStand(i)
	}
	for i := range t.stands {
		t.stands[i].twin = t.twinOf(i)
	}
	found := t.sheet.Contacts
	for i, j := range assign(len(t.stands), len(found), func(i, j int) float64 {
		s, c := &t.stands[i], &found[j]
		far := s.distance(c) / spotReach
		if !t.mayBe(c.Figure, s.Figure) || far > 1 || overlap(s.Start, s.End, c.Start, c.End) < groundOverlap {
			return math.NaN()
		}
		return (overlap(s.Start, s.End, c.Start, c.End) + 1 - far) / 2
	}) {
		t.stands[i].pair = j
	}
}

func (t *trial) newStand(i int) stand {
	c := &t.truth.Contacts[i]
	s := stand{Contact: c, figure: &t.truth.Figures[c.Figure], twin: -1, pair: -1, seen: math.Abs(c.SlipShare)}
	s.ground = s.seen
	if t.feet != nil {
		k := &t.feet.Stands[i]
		s.seen, s.ground = math.Hypot(k.DX, k.DY)/s.height(), k.SlipShare
	}
	short := float64(c.End-c.Start+1) < cutShort*t.rate
	s.open = !c.Seen || short && (t.opensShot(c.Start) || t.closesShot(c.End))
	return s
}

// height is that of the figure when the stand begins, pixels.
func (s *stand) height() float64 {
	k := s.Start - s.figure.Start
	return s.figure.Height[max(0, min(k, len(s.figure.Height)-1))]
}

// at is where the stand is in the picture of a frame.
func (s *stand) at(frame int) scene.Point {
	return s.Path[max(0, min(frame-s.Start, len(s.Path)-1))]
}

// distance is how far off a contact is on the frame that its spot is given
// for, figure heights.
func (s *stand) distance(c *sheet.Contact) float64 {
	p := s.at(c.Start)
	return math.Hypot(p.X-c.X, p.Y-c.Y) / s.height()
}

// twinOf returns the stand of the other foot on the same spot at the same time.
func (t *trial) twinOf(i int) int {
	s := &t.stands[i]
	for k := range t.stands {
		o := &t.stands[k]
		if k == i || o.Figure != s.Figure || overlap(s.Start, s.End, o.Start, o.End) < groundOverlap {
			continue
		}
		from := max(s.Start, o.Start)
		p, q := s.at(from), o.at(from)
		if math.Hypot(p.X-q.X, p.Y-q.Y)/s.height() < spotReachTwins {
			return k
		}
	}
	return -1
}

// mayBe reports whether a found figure, by its number, may be a true one: its
// boxes are not those of another one.
func (t *trial) mayBe(id, truth int) bool {
	k, paired := t.figureOf[id]
	return !paired || k == truth
}

// excused reports whether the stand counts neither way although nothing was
// found for it: it is not to be seen, or its twin was found.
func (t *trial) excused(s *stand) bool {
	return s.open || s.twin >= 0 && t.stands[s.twin].pair >= 0
}

// asOpen reports whether a contact without a partner is a piece of a stand that
// counts neither way, or what else than a foot touches the ground.
func (t *trial) asOpen(c *sheet.Contact) bool {
	for i := range t.stands {
		if s := &t.stands[i]; s.open && mostlyWithin(c, s.Start, s.End) && s.distance(c) <= spotReach {
			return true
		}
	}
	return t.rests(c) || t.atRest(c)
}

// mostlyWithin reports whether at least half of a contact's frames lie in a
// range.
func mostlyWithin(c *sheet.Contact, start, end int) bool {
	return 2*(min(end, c.End)-max(start, c.Start)+1) >= c.End-c.Start+1
}

// rests reports whether a contact may be that of a knee or a hand on the ground.
func (t *trial) rests(c *sheet.Contact) bool {
	if t.feet == nil {
		return false
	}
	for _, r := range t.feet.Rests {
		p := r.Path[max(0, min(c.Start-r.Start, len(r.Path)-1))]
		height := seenHeight(&t.truth.Figures[r.Figure], t.size.Y)
		if mostlyWithin(c, r.Start, r.End) && math.Hypot(p.X-c.X, p.Y-c.Y) <= spotReach*height {
			return true
		}
	}
	return false
}

// atRest reports whether a contact may be that of a ball that has come to rest.
func (t *trial) atRest(c *sheet.Contact) bool {
	for _, im := range t.truth.Impacts {
		if im.Last && t.mayBe(c.Figure, im.Figure) && float64(c.Start) >= im.Frame-1 {
			return true
		}
	}
	return false
}

// extraContacts returns the found contacts without a partner that are wrong.
func (t *trial) extraContacts() (list []int) {
	partner := make([]int, len(t.stands))
	for i := range t.stands {
		partner[i] = t.stands[i].pair
	}
	for _, j := range unmatched(partner, len(t.sheet.Contacts)) {
		if !t.asOpen(&t.sheet.Contacts[j]) {
			list = append(list, j)
		}
	}
	return list
}
