package strip

import (
	"math"

	"holdfast/motion/camera"
)

// A Spot is one stand of something on the ground: working pixels of the pictures
// of its first and last frame. Frames count from the clip's first.
type Spot struct {
	Start, End   int
	X, Y         float64 // of the sole in frame Start
	LastX, LastY float64 // in frame End
	Slip         float64 // across over the ground meanwhile
	Height       float64 // of its figure in frame Start
}

// A level is where a spot lies on the ground of the shot's first frame.
type level struct {
	start, end   int
	x0, y0       float64
	x1, y1       float64
	height       float64
	slip, parted float64 // columns: over the ground, and of the ground beside the camera's path
}

// levels lays spots into the shot's frame of reference.
func (s *Strip) levels(spots []Spot) []level {
	var list []level
	for _, p := range spots {
		l := level{start: p.Start, end: p.End, height: p.Height * s.Scale(p.Start), slip: p.Slip * s.Scale(p.Start)}
		l.x0, l.y0 = s.place(p.Start, p.X, p.Y)
		l.x1, l.y1 = s.place(p.End, p.LastX, p.LastY)
		l.parted = l.x1 - l.x0 - l.slip
		list = append(list, l)
	}
	return list
}

// at is where the spot is in a frame: on the line between its ends, or where it
// was last or will be first.
func (l *level) at(frame int) (x, y float64) {
	u := min(1, max(0, float64(frame-l.start)/max(1, float64(l.end-l.start))))
	return l.x0 + u*(l.x1-l.x0), l.y0 + u*(l.y1-l.y0)
}

// gap is for how many frames the spot is not there yet, or no more.
func (l *level) gap(frame int) int { return max(0, l.start-frame, frame-l.end) }

// nearFrames weighs time against distance where two spots could give the ground's
// level: a figure height across counts as much as so many frames.
const nearFrames = 12.0

// nearest is the spot that tells the ground's level at a column of a frame.
func nearest(list []level, frame int, x float64) *level {
	var best *level
	least := math.Inf(1)
	for i := range list {
		l := &list[i]
		at, _ := l.at(frame)
		if d := float64(l.gap(frame))/nearFrames + math.Abs(at-x)/l.height; d < least {
			best, least = l, d
		}
	}
	return best
}

// steady takes out of a stretch's path what the ground at the feet goes beside
// it: a camera that travels moves near ground by more than the set behind it.
// How much is known from what stands, and slides by a known amount.
func (s *Strip) steady(list []level, from, to int) {
	carried := s.shift
	for t := from + 1; t <= to; t++ {
		sum, n := 0.0, 0.0
		for i := range list {
			if l := &list[i]; l.start < t && t <= l.end {
				sum, n = sum+l.parted/float64(l.end-l.start), n+1
			}
		}
		if n > 0 {
			s.shift -= sum / n
		}
		p := &s.Path[t-s.Start]
		*p = p.Then(camera.Similarity{A: 1, TX: s.shift - carried})
	}
}
