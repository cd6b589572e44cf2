package figure

import "slices"

const (
	// joinShare is the gap, as a share of the picture's height, across which
	// pieces of one frame are one figure: the plate swallows a belt or a neck.
	joinShare = 0.04
	// patience is for how many frames a figure may go unseen and still be the
	// same one: a quarter of a second at 24 frames a second.
	patience = 6
	// runReach is how far a figure runs over the ground from frame to frame at most, as
	// a share of its larger side: 12 m/s for one of 1.7 m at 24 frames a second. It
	// tells what the camera passes on its way from what it follows.
	runReach = 0.3
)

// A Track is one figure over the frames of a stretch.
type Track struct {
	Start int   // frame of Boxes[0]
	Boxes []Box // one a frame, empty where it was not seen
}

// End returns the last frame of the track.
func (t *Track) End() int { return t.Start + len(t.Boxes) - 1 }

// At returns the box in a frame, empty outside the track.
func (t *Track) At(frame int) Box {
	if frame < t.Start || frame > t.End() {
		return Box{}
	}
	return t.Boxes[frame-t.Start]
}

// Union returns the box around the track in all its frames.
func (t *Track) Union() Box {
	var u Box
	for _, b := range t.Boxes {
		u = u.Union(b)
	}
	return u
}

func (t *Track) put(frame int, b Box) {
	for t.End() < frame {
		t.Boxes = append(t.Boxes, Box{})
	}
	t.Boxes[frame-t.Start] = t.Boxes[frame-t.Start].Union(b)
}

// join merges boxes that lie within gap of each other until none do.
func join(boxes []Box, gap int) []Box {
	for again := true; again; {
		again = false
		for i := 0; i < len(boxes); i++ {
			for j := i + 1; j < len(boxes); j++ {
				if boxes[i].Grow(gap).Overlap(boxes[j]) > 0 {
					boxes[i] = boxes[i].Union(boxes[j])
					boxes = slices.Delete(boxes, j, j+1)
					again = true
					j--
				}
			}
		}
	}
	return boxes
}

// A linker follows boxes from frame to frame.
type linker struct {
	gap    int // pixels
	world  *world
	tracks []*Track
}

// newLinker returns one for pictures of a world.
func newLinker(wd *world) linker {
	return linker{gap: max(2, int(joinShare*float64(wd.h))), world: wd}
}

// add hands over the boxes of one frame, in any order.
func (l *linker) add(frame int, boxes []Box) {
	// The largest first, so that a speck beside a figure cannot take its track.
	slices.SortFunc(boxes, func(a, b Box) int { return b.W()*b.H() - a.W()*a.H() })
	for _, b := range boxes {
		if t := l.match(frame, b); t != nil {
			t.put(frame, b)
			continue
		}
		l.tracks = append(l.tracks, &Track{Start: frame, Boxes: []Box{b}})
	}
}

// match returns the live track whose last box b overlaps most, in the picture, where a
// camera may follow it, or on the ground.
func (l *linker) match(frame int, b Box) *Track {
	var best *Track
	most := 0
	for _, t := range l.tracks {
		if frame-t.End() > patience {
			continue
		}
		last, at := t.last()
		stood := l.world.carry(last, at, frame)
		reach := int(runReach * float64((frame-at)*max(last.W(), last.H())))
		if stood.Grow(l.gap+reach).Overlap(b) == 0 {
			continue
		}
		if o := max(last.Grow(l.gap).Overlap(b), stood.Grow(l.gap).Overlap(b)); o > most {
			best, most = t, o
		}
	}
	return best
}

// last returns the last box of the track, and in which frame it is.
func (t *Track) last() (b Box, frame int) {
	for i := len(t.Boxes) - 1; i >= 0; i-- {
		if !t.Boxes[i].Empty() {
			return t.Boxes[i], t.Start + i
		}
	}
	return Box{}, t.Start
}
