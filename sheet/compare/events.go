package compare

import (
	"cmp"
	"math"
	"slices"

	"holdfast/sheet"
)

// eventSeconds is how far an event of the pass may lie from where the beats
// lead one to expect it, and still be the same: a quarter of a second, under
// half a step of a walk (a step takes half a second; common practice, no source).
const eventSeconds = 0.25

// An event is something of one clip that lasts from a frame to another.
type event struct {
	id         int
	kind       string
	start, end int // frame numbers
	size       float64
}

func (b both) contacts() []Pair { return b.match(contactsOf(b.ref), contactsOf(b.pass)) }
func (b both) flights() []Pair  { return b.match(flightsOf(b.ref), flightsOf(b.pass)) }
func (b both) cuts() []Pair     { return b.match(cutsOf(b.ref), cutsOf(b.pass)) }

func contactsOf(s *sheet.Sheet) (list []event) {
	for _, c := range s.Contacts {
		list = append(list, event{c.ID, c.State, c.Start, c.End, 0})
	}
	return list
}

// flightsOf returns the hops: the air under a running step is no event of its own.
func flightsOf(s *sheet.Sheet) (list []event) {
	for _, f := range s.Flights {
		if s.IsHop(f) {
			list = append(list, event{f.ID, "hop", f.Start, f.End, f.RiseShare})
		}
	}
	return list
}

func cutsOf(s *sheet.Sheet) (list []event) {
	for i, shot := range s.Shots {
		if i > 0 {
			list = append(list, event{shot.ID, "cut", shot.Start, shot.Start, 0})
		}
	}
	return list
}

// match pairs events one to one, the nearest first, and returns them in the
// order of the pass.
func (b both) match(ref, pass []event) []Pair {
	type candidate struct {
		r, p  int
		apart float64
	}
	var near []candidate
	for i, r := range ref {
		for j, p := range pass {
			if d := b.apart(r, p); d <= eventSeconds*b.fit.pass.rate {
				near = append(near, candidate{i, j, d})
			}
		}
	}
	slices.SortStableFunc(near, func(x, y candidate) int { return cmp.Compare(x.apart, y.apart) })
	partner, taken := map[int]int{}, map[int]bool{}
	for _, n := range near {
		if _, ok := partner[n.r]; !ok && !taken[n.p] {
			partner[n.r], taken[n.p] = n.p, true
		}
	}
	list := []Pair{}
	for i, r := range ref {
		if j, ok := partner[i]; ok {
			list = append(list, b.eventPair(r, pass[j]))
		} else {
			list = append(list, Pair{State: Missing, Kind: r.kind, Reference: r.span()})
		}
	}
	for j, p := range pass {
		if !taken[j] {
			list = append(list, Pair{State: Extra, Kind: p.kind, Pass: p.span()})
		}
	}
	slices.SortStableFunc(list, func(x, y Pair) int { return cmp.Compare(b.at(x), b.at(y)) })
	return list
}

// apart is how many frames of the pass two events start and end apart, the
// smaller of both: a foot may be lifted later without being another foot.
func (b both) apart(r, p event) float64 {
	return min(math.Abs(b.expected(r.start)-b.instant(p.start)), math.Abs(b.expected(r.end+1)-b.instant(p.end+1)))
}

// expected is the instant of the pass at which a frame of the reference begins.
func (b both) expected(frame int) float64 {
	return b.warp.pass(float64(frame - b.ref.Clip.FirstFrame))
}

func (b both) instant(frame int) float64 { return float64(frame - b.pass.Clip.FirstFrame) }

// at is where in the pass a pair is, or would be.
func (b both) at(p Pair) float64 {
	if p.Pass != nil {
		return b.instant(p.Pass.Start)
	}
	return b.expected(p.Reference.Start)
}

func (b both) eventPair(r, p event) Pair {
	pair := Pair{State: Matched, Kind: p.kind, Reference: r.span(), Pass: p.span()}
	pair.Start = frames(b.instant(p.start) - b.expected(r.start))
	if p.kind == "cut" {
		return pair
	}
	pair.End = frames(b.instant(p.end+1) - b.expected(r.end+1))
	pair.Longer = frames(float64(p.end+1-p.start) - b.stretch*float64(r.end+1-r.start))
	if r.size > 0 && p.size > 0 {
		pair.Size = share(p.size / r.size)
	}
	return pair
}

func (e event) span() *Span {
	return &Span{IDs: []int{e.id}, Start: e.start, End: e.end, Frames: e.end - e.start + 1}
}
