package feet

import (
	"math"
	"slices"
)

const (
	// shortestContact is the least time something stands, seconds.
	shortestContact = 0.09
	// briefContact is the time, seconds, under which something is a contact only
	// where there is no longer one beside it.
	briefContact = 0.25
	// slideLeast is how long something must slide, seconds, that goes at slideSpeed,
	// figure heights a second; what goes faster must last longer in proportion: a
	// swinging foot is slow for a moment.
	slideLeast, slideSpeed = 0.4, 0.2
	// oneSole is how close, in soles, the middles of two contacts of one time are
	// one contact, and briefSole the same for a brief one beside a longer.
	oneSole, briefSole = 0.35, 1.2
	// oneLevel is how far apart in height, in figure heights, these may be.
	oneLevel = 0.1
	// briefGap is how many frames apart a brief contact may be from the longer one
	// that it belongs to.
	briefGap = 2
)

// sift keeps what is sure to stand on the ground.
func (w *walker) sift(list []Contact) []Contact {
	list = slices.DeleteFunc(list, func(c Contact) bool { return !w.lasts(c) })
	list = w.absorb(list)
	if w.s.Line != nil {
		return list // nothing of it is held in the air
	}
	return w.shod(w.level(w.grounded(list)))
}

// lasts reports whether c lasts as long as something must that goes as fast. What
// is slow and cut off by the stretch lasts longer than is seen.
func (w *walker) lasts(c Contact) bool {
	n := float64(c.End-c.Start+1) / w.s.Rate
	speed := math.Abs(c.Share) / n
	if n < shortestContact {
		return false
	}
	return n >= slideLeast*speed/slideSpeed || speed <= slideSpeed && w.cutOff(c)
}

// cutOff reports whether c began before the figure was seen first or ends after it
// was seen last.
func (w *walker) cutOff(c Contact) bool {
	return c.Start <= w.draws[0].start || c.End >= w.draws[len(w.draws)-1].end
}

func (w *walker) brief(c Contact) bool {
	return float64(c.End-c.Start+1) < briefContact*w.s.Rate
}

// absorb drops contacts that are part of longer ones.
func (w *walker) absorb(list []Contact) []Contact {
	slices.SortStableFunc(list, func(a, b Contact) int { return (b.End - b.Start) - (a.End - a.Start) })
	var kept []Contact
	for _, c := range list {
		if !slices.ContainsFunc(kept, func(k Contact) bool { return w.partOf(c, k) }) {
			kept = append(kept, c)
		}
	}
	return kept
}

// partOf reports whether c is part of k, which lasts as long at least.
func (w *walker) partOf(c, k Contact) bool {
	brief := w.brief(c)
	if gap := max(c.Start, k.Start) - min(c.End, k.End); gap > briefGap || gap > 0 && !brief {
		return false
	}
	t := min(max(c.Start, k.Start), k.End)
	dx, dy := w.still(k.Start, c.Start, k.X, k.Y)
	x := k.X + dx + k.Slip*float64(t-k.Start)/max(1, float64(k.End-k.Start))
	if math.Abs(c.Y-k.Y-dy) > oneLevel*w.tallIn(c.Start) {
		return false
	}
	apart, sole := math.Abs(c.X-x), w.sole*w.tallIn(c.Start)
	return apart < oneSole*sole || brief && apart < briefSole*sole
}

const (
	// aloftShare is how far above all others of its time, in figure heights, a
	// contact is none but something held in the air: more than a stair.
	aloftShare = 0.12
	// aloftSeconds is how far apart in time the others may be.
	aloftSeconds = 1.0
	// aloftBrief and aloftBriefSeconds are the same for a brief contact: at the top
	// of a hop nothing moves.
	aloftBrief, aloftBriefSeconds = 0.03, 0.5
)

// grounded drops what keeps its place in the air.
func (w *walker) grounded(list []Contact) []Contact {
	var kept []Contact
	for i, c := range list {
		limit, seconds := aloftShare, aloftSeconds
		if w.brief(c) {
			limit, seconds = aloftBrief, aloftBriefSeconds
		}
		if w.above(list, i, seconds) < limit {
			kept = append(kept, c)
		}
	}
	return kept
}

// above is how far contact i lies above the highest other one of its time, figure
// heights; far below where there is no other.
func (w *walker) above(list []Contact, i int, seconds float64) float64 {
	c, above := list[i], math.Inf(1)
	for k, o := range list {
		if k == i || w.apart(c, o) > seconds {
			continue
		}
		above = min(above, w.below(c, o))
	}
	if math.IsInf(above, 1) {
		return math.Inf(-1)
	}
	return above
}
