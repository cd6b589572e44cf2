package feet

import (
	"math"
	"slices"
)

// A foot that turns on its heel or its toe stays on the ground, but looks another
// way than before: what was followed of it is lost, and found again a little beside.
// That is one stand.

const (
	// pivotSeconds is how long a foot takes to turn at most.
	pivotSeconds = 0.25
	// pivotSoles is how far, in soles, its middle goes at most: half a sole either
	// way where it turns right round, and half of that where it is measured.
	pivotSoles = 0.75
	// pivotLevel is how far apart in height, in figure heights, both halves may be: half
	// of what heel and toe of one foot may.
	pivotLevel = soleLevel / 2
	// pivotLeast is how many frames lie from the last frame of one half to the first of
	// the other at least: what turns from one frame to the next is another pose.
	pivotLeast = 2
	// pivotLift is how far, in figure heights, the lowest point of the foot may rise
	// while it turns: more has been lifted.
	pivotLift = 0.025
	// pivotSlip is the slip, in soles, under which what a turning foot goes is the
	// turning.
	pivotSlip = 0.5
)

// joinTurns makes one contact of those that a turn has parted.
func (w *walker) joinTurns(list []Contact) []Contact {
	slices.SortStableFunc(list, func(a, b Contact) int { return a.Start - b.Start })
	for i := 0; i < len(list); i++ {
		for {
			k := w.turned(list, i)
			if k < 0 {
				break
			}
			list[i] = w.joined(list[i], list[k])
			list = slices.Delete(list, k, k+1)
		}
	}
	return list
}

// turned is the index of the contact that goes on with contact i after a turn, -1
// for none.
func (w *walker) turned(list []Contact, i int) int {
	a := list[i]
	best, least := -1, pivotSoles
	for k := i + 1; k < len(list); k++ {
		b := list[k]
		if b.End <= a.End || b.Start-a.End < pivotLeast || float64(b.Start-a.End) > pivotSeconds*w.s.Rate {
			continue
		}
		if d := w.aside(a, b); d <= least && w.stays(a, b) {
			best, least = k, d
		}
	}
	return best
}

// aside is how far the spot of b lies beside that on which a ended, soles;
// infinite where it lies at another level.
func (w *walker) aside(a, b Contact) float64 {
	dx, dy := w.still(a.End, b.Start, a.LastX, a.LastY)
	if math.Abs(b.Y-a.LastY-dy) > pivotLevel*w.tallIn(b.Start) {
		return math.Inf(1)
	}
	return math.Abs(b.X-a.LastX-dx) / (w.sole * w.tallIn(b.Start))
}

// stays reports whether something of the figure stays on the ground between a and b.
func (w *walker) stays(a, b Contact) bool {
	half := w.sole * w.tallIn(b.Start)
	for t := a.End + 1; t < b.Start; t++ {
		dx, dy := w.still(a.End, t, a.LastX, a.LastY)
		x, y := a.LastX+dx, a.LastY+dy-pivotLift*w.tallIn(t)
		if !slices.ContainsFunc(w.lumps(t), func(l lump) bool {
			return float64(l.x0) <= x+half && float64(l.x1) >= x-half && float64(l.y) >= y
		}) {
			return false
		}
	}
	return true
}

// joined is the contact that a and b are halves of.
func (w *walker) joined(a, b Contact) Contact {
	a.SlideStart, a.SlideEnd = min(a.SlideStart, b.SlideStart), max(a.SlideEnd, b.SlideEnd)
	a.End, a.LastX, a.LastY, a.Turns = b.End, b.LastX, b.LastY, true
	tall := w.tallIn(a.Start)
	a.Slip += b.Slip
	if math.Abs(a.Slip) < pivotSlip*w.sole*tall {
		a.Slip = 0
	}
	a.Share = a.Slip / tall
	return a
}
