package feet

import (
	"math"
	"slices"
	"sort"
)

// What slips faster than anything slides by plan is not followed as a spot: its
// sole stands, shoots along and stands again. It is one contact all the same
// where the sole never leaves the ground on the way.

const (
	// skidAcross is the most that a sole shoots over the ground, figure heights a
	// second: a brisk run's speed, 3.4 m/s for a person of 1.7 m.
	skidAcross = 2.0
	// skidSeconds is how long it does so at most.
	skidSeconds = 1.0
	// skidLift is how far, in figure heights, it may seem to leave the line from
	// where it stood to where it stands again: a swinging foot's toes clear the
	// ground by a hundredth of the height, but its heel by ten (D. Winter,
	// "Biomechanics and Motor Control of Human Movement", from memory).
	skidLift = 0.015
	// skidLiftLeast is the least of that, pixels: what a match is off by.
	skidLiftLeast = 1.0
	// skidEnd is how far, in soles, beside the next stand the sole that was
	// followed may come out: as much as a window differs from a shoe.
	skidEnd = besideSole
)

// skids joins contacts between which a sole shot along.
func (w *walker) skids(list []Contact) []Contact {
	slices.SortStableFunc(list, func(a, b Contact) int { return a.Start - b.Start })
	joined := slices.Clone(list)
	for i := 0; i < len(joined); i++ {
		for k := i + 1; k < len(joined); k++ {
			way, ok := w.skid(list, joined[i], joined[k])
			if !ok {
				continue
			}
			joined[i] = joined[i].then(joined[k], way, w.tallIn(joined[i].Start))
			joined = slices.Delete(joined, k, k+1)
			k = i // it may go on
		}
	}
	return joined
}

// then is c and what it goes on as after a way across over the ground, pixels.
func (c Contact) then(next Contact, way, height float64) Contact {
	if c.SlideEnd >= c.End {
		c.SlideStart = c.End // it stood until then
	}
	c.SlideEnd = next.Start
	c.End, c.LastX, c.LastY = next.End, next.LastX, next.LastY
	c.Slip += way + next.Slip
	c.Share = c.Slip / height
	return c
}

// skid follows the sole of contact a to contact b, and reports how far it went
// over the ground and whether it stayed on it. While something else of the figure
// stands still, what goes fast is a step.
func (w *walker) skid(list []Contact, a, b Contact) (way float64, ok bool) {
	seconds := float64(b.Start-a.End) / w.s.Rate
	if b.Start <= a.End || seconds > skidSeconds || stands(list, a.End, b.Start) {
		return 0, false
	}
	dx, dy := w.still(a.End, b.Start, a.LastX, a.LastY)
	x, y := b.X-a.LastX-dx, b.Y-a.LastY-dy
	if math.Abs(x) > skidAcross*seconds*w.tallIn(a.End) || math.Abs(y) > oneLevel*w.tallIn(a.End) {
		return 0, false
	}
	way, ok = w.shoots(a, b.Start, y)
	return way, ok && math.Abs(way-x) <= skidEnd*w.sole*w.tallIn(a.End)
}

// stands reports whether any contact goes on over all frames between two.
func stands(list []Contact, from, to int) bool {
	return slices.ContainsFunc(list, func(c Contact) bool { return c.Start <= from && c.End >= to })
}

// shoots follows the sole of contact a to frame to, on which it is to stand lower
// by drop pixels, and returns how far it went across.
func (w *walker) shoots(a Contact, to int, drop float64) (way float64, ok bool) {
	at, lift := place{a.LastX, a.LastY}, 0.0
	first, last := w.drawing(a.End), w.drawing(to)
	for i := first; i < last; i++ {
		by, found := w.slideOn(at, i)
		if !found {
			return 0, false
		}
		way, lift = way+by.dx, lift+by.dy
		line := drop * float64(i+1-first) / float64(last-first)
		if math.Abs(lift-line) > max(skidLiftLeast, skidLift*w.tall(i)) {
			return 0, false
		}
		at = w.carry(at, w.draws[i].end, w.draws[i+1].end)
		at = place{at.x + by.dx, at.y + by.dy}
	}
	return way, true
}

// slideOn follows the sole whose middle is at a place of drawing i to the next.
func (w *walker) slideOn(at place, i int) (step, bool) {
	dt := w.span(i)
	rx, ry := int(math.Ceil(skidAcross*dt*w.tall(i)))+beyond, int(math.Ceil(skidLift*w.tall(i)))+beyond
	a, b := w.frames(i, i+1)
	m := w.match(a, b, w.soleWindow(at, i), rx, ry)
	return step{m.dx, m.dy, true}, m.ok && m.misfit <= alikeShare*m.contrast
}

// drawing is the index of the one that is up on frame t.
func (w *walker) drawing(t int) int {
	return sort.Search(len(w.draws), func(i int) bool { return w.draws[i].end >= t })
}

// soleWindow is what is looked at around a whole sole in drawing i.
func (w *walker) soleWindow(p place, i int) window {
	n := func(length float64) int { return int(math.Round(max(windowLeast, length))) }
	x, y, half := int(math.Round(p.x)), int(math.Round(p.y)), n(w.soleAt(i)/2)
	return window{x - half, y - n(windowUp*w.tall(i)), x + half, y + n(windowDown*w.tall(i))}
}
