package feet

import "math"

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

// unseen reports whether most of a contact falls into frames in which the feet
// are out of the picture: what is told there stands on nothing.
func unseen(c Contact, list []Outside) bool {
	n := 0
	for _, o := range list {
		n += max(0, min(c.End, o.End)-max(c.Start, o.Start)+1)
	}
	return 2*n > c.End-c.Start+1
}
