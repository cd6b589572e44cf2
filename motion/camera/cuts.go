package camera

import "math"

// What makes a cut. All are shares or ratios, so that they hold for dark and
// bright, calm and lively clips alike.
const (
	// cutHard is the least share of the picture that a cut changes: black
	// bars, dark corners and like surfaces leave at least this much.
	cutHard = 0.4
	// cutSeen and cutSpread serve pictures that are mostly blank: nearly
	// everything that is there has changed, over most of the picture.
	cutSeen, cutSpread = 0.8, 0.5
	// cutAlone is how many times larger than its neighbours the change at a
	// cut is; fades, dissolves and whip pans change as much on every frame.
	cutAlone = 2.0
	// cutNeighbours is how many frames either side are its neighbours: two, so
	// that in a clip on twos the still frames between do not count alone.
	cutNeighbours = 2
	// cutReturn is the part of the jump within which a later frame must come
	// back to the picture before for the jump to be a flash or something
	// passing close by.
	cutReturn = 0.4
	// flashSeconds is how long such a passing thing may last.
	flashSeconds = 1.0 / 3
	// mostLook bounds what is looked ahead, in frames, and so what must be
	// kept: a third of a second at 288 frames a second.
	mostLook = 96
)

// A Cutter finds hard cuts in a stream of changes. It needs to look ahead a
// third of a second, so a cut is told that much later.
type Cutter struct {
	look   int      // frames looked ahead and back
	recent []Change // the last 2*look+1 changes, the newest last
	next   int      // frame of the next change to come
}

// NewCutter returns a Cutter for a clip of the given rate in frames a second.
func NewCutter(rate float64) *Cutter {
	look := int(min(mostLook, max(cutNeighbours+1, math.Round(rate*flashSeconds))))
	return &Cutter{look: look}
}

// Look returns how many frames after a cut it is told at the latest.
func (c *Cutter) Look() int { return c.look }

// Push takes the change that led to the next frame (for frame 0, a Change
// with the thumbnail alone) and returns the frame of a cut now certain.
func (c *Cutter) Push(ch Change) (frame int, ok bool) {
	c.recent = append(c.recent, ch)
	if len(c.recent) > 2*c.look+1 {
		copy(c.recent, c.recent[1:])
		c.recent = c.recent[:len(c.recent)-1]
	}
	c.next++
	return c.judge(c.next - 1 - c.look)
}

// Flush returns the cuts among the last frames, when no more will come.
func (c *Cutter) Flush() []int {
	var cuts []int
	for f := max(0, c.next-c.look); f < c.next; f++ {
		if f, ok := c.judge(f); ok {
			cuts = append(cuts, f)
		}
	}
	return cuts
}

// judge says whether frame f starts a new shot.
func (c *Cutter) judge(f int) (int, bool) {
	first := c.next - len(c.recent)
	if f < 1 || f-1 < first {
		return 0, false
	}
	i := f - first
	ok := c.jumps(i) && c.alone(i) && !c.returns(i)
	return f, ok
}

func (c *Cutter) jumps(i int) bool {
	ch := &c.recent[i]
	return ch.Hard >= cutHard || ch.Seen >= cutSeen && ch.Spread >= cutSpread
}

func (c *Cutter) alone(i int) bool {
	for j := max(0, i-cutNeighbours); j <= min(len(c.recent)-1, i+cutNeighbours); j++ {
		if j != i && c.recent[i].Amount < cutAlone*c.recent[j].Amount {
			return false
		}
	}
	return true
}

// returns reports whether the picture comes back to what it was before the
// jump, or had already been what it is after it.
func (c *Cutter) returns(i int) bool {
	before, after := &c.recent[i-1].Thumb, &c.recent[i].Thumb
	near := cutReturn * before.Distance(after)
	for j := i + 1; j <= min(len(c.recent)-1, i+c.look); j++ {
		if before.Distance(&c.recent[j].Thumb) < near {
			return true
		}
	}
	for j := max(0, i-c.look); j < i-1; j++ {
		if after.Distance(&c.recent[j].Thumb) < near {
			return true
		}
	}
	return false
}
