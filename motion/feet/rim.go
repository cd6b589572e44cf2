package feet

import (
	"math"
	"slices"
)

// An Outside is a run of frames in which the lower rim of the picture cuts a
// figure off, so that its feet are not to be seen. Frames count from the first
// of the stretch, both ends included.
type Outside struct {
	Figure     int // index into Stretch.Figures
	Start, End int
}

// rimShare is how much of its width must lie on the lower rim of the picture for a
// figure to be cut off by it: a trunk or legs, and not the end of a shadow.
const rimShare = 0.25

// cutOffShare is the share of its frames in which a figure is cut off from which on
// its feet are taken to lie below the picture all the while.
const cutOffShare = 0.5

// outsideSeconds is the shortest stretch that is told: as long as a hold must
// be, four frames at 24 a second.
const outsideSeconds = 4.0 / 24

// cutOff reports whether the feet lie below the picture for the better part.
func (b *body) cutOff() bool {
	n := 0
	for _, below := range b.below {
		if below {
			n++
		}
	}
	return float64(n) >= cutOffShare*float64(len(b.below))
}

// outside lists the runs of frames in which b is cut off below.
func (b *body) outside(rate float64) []Outside {
	least := max(1, int(math.Round(outsideSeconds*rate)))
	var list []Outside
	for i := 0; i < len(b.below); {
		n := 0
		for i+n < len(b.below) && b.below[i+n] {
			n++
		}
		if n >= least {
			list = append(list, Outside{Start: b.first + i, End: b.first + i + n - 1})
		}
		i += n + 1
	}
	return list
}

// rimReach is how far above the lower rim, in figure heights, something may
// stand that is but the place where the rim cuts a leg: as long as a foot is
// high. What stands higher up is a foot above its own reflection.
const rimReach = 0.1

// visible keeps of a figure's contacts those that do not stand on the rim while
// its feet are out of the picture, and of the runs in which they are said to be
// those in which nothing stands for the better part.
func (s *Stretch) visible(contacts []Contact, outside []Outside, height float64) ([]Contact, []Outside) {
	contacts = slices.DeleteFunc(contacts, func(c Contact) bool {
		return float64(s.bottom())-c.Y <= rimReach*height && mostly(c, outside)
	})
	outside = slices.DeleteFunc(outside, func(o Outside) bool { return stood(o, contacts) })
	return contacts, outside
}

// mostly reports whether most of a contact falls into runs.
func mostly(c Contact, runs []Outside) bool {
	n := 0
	for _, o := range runs {
		n += max(0, min(c.End, o.End)-max(c.Start, o.Start)+1)
	}
	return 2*n > c.End-c.Start+1
}

// stood reports whether something stands in most frames of a run.
func stood(o Outside, contacts []Contact) bool {
	n := 0
	for t := o.Start; t <= o.End; t++ {
		if slices.ContainsFunc(contacts, func(c Contact) bool { return c.Start <= t && t <= c.End }) {
			n++
		}
	}
	return 2*n > o.End-o.Start+1
}
