package feet

import (
	"cmp"
	"math"
	"slices"

	"holdfast/motion/figure"
)

// A Contact is one stand of something of a figure on the ground. Frames count
// from the first of the stretch, both ends included.
type Contact struct {
	Figure       int // index into Stretch.Figures
	Start, End   int
	X, Y         float64 // middle of the sole in frame Start, working pixels
	LastX, LastY float64 // the same in frame End
	Slip         float64 // across over the ground from Start to End, working pixels, positive to the right
	Share        float64 // the same in figure heights
	Turns        bool    // turns on its heel or toe

	SlideStart, SlideEnd int // frames between which it goes: all of it, but where it stood and shot along
}

// contacts finds what of a figure stands on the ground.
func (s *Stretch) contacts(f *figure.Figure) []Contact {
	w := s.walker(f)
	w.look()
	w.follow(w.ends)
	w.measureSole()
	w.follow(w.inner())
	var list []Contact
	for _, foot := range w.feet(w.stands()) {
		list = append(list, w.contact(foot))
	}
	return w.joinTurns(w.skids(w.sift(list)))
}

// stands are all spots while they stand, the longest first, and of those that last
// as long the slowest: a heel that lifts leaves the ground before its toe.
func (w *walker) stands() []*stand {
	var list []*stand
	speed := map[*stand]float64{}
	for _, p := range w.spots {
		x, y := w.usual(p)
		st := w.settle(p, x, y)
		list = append(list, &st)
		speed[&st] = math.Hypot(x, y)
	}
	slices.SortStableFunc(list, func(a, b *stand) int {
		return cmp.Or((b.to-b.from)-(a.to-a.from), cmp.Compare(speed[a], speed[b]))
	})
	return list
}
