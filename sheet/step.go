package sheet

import (
	"math"
	"slices"
)

// A Step leads from one contact of a figure to the next at another spot.
type Step struct {
	Shot      int     `json:"shot"`
	Figure    int     `json:"figure"`
	From      int     `json:"from"` // id of the contact before
	To        int     `json:"to"`   // id of the contact it ends with
	Start     int     `json:"start"`
	End       int     `json:"end"`    // frame on which the new contact starts
	Frames    int     `json:"frames"` // from start of contact to start of contact
	Seconds   float64 `json:"seconds"`
	Length    float64 `json:"length_share"` // between the spots, figure heights
	Direction string  `json:"direction"`    // on screen: left, right, towards, away

	// Timed is false where the contact before was there from the first frame
	// on: how long the step took is then not known.
	Timed bool `json:"timed"`
}

const (
	// stepLength is how far apart two spots are at least, figure heights: half a
	// foot's length (a foot is 0.152 heights; Winter, from memory).
	stepLength = 0.076
	// stepSeconds is the least time from contact to contact; what lands closer
	// together lands as one. A sprinter takes five steps a second (from memory).
	stepSeconds = 0.12
)

// steps derives the steps from the contacts.
func (s *Sheet) steps() []Step {
	var list []Step
	for _, stands := range s.standsByFigure() {
		for i := 1; i < len(stands); i++ {
			if step, ok := s.step(stands[i-1], stands[i]); ok {
				list = append(list, step)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Step) int { return a.End - b.End })
	return list
}

// standsByFigure returns the contacts of each figure in the order they start.
func (s *Sheet) standsByFigure() [][]Contact {
	var all [][]Contact
	for _, f := range s.Figures {
		var stands []Contact
		for _, c := range s.Contacts {
			if c.Figure == f.ID && c.Shot == f.Shot {
				stands = append(stands, c)
			}
		}
		slices.SortStableFunc(stands, func(a, b Contact) int { return a.Start - b.Start })
		if len(stands) > 0 {
			all = append(all, stands)
		}
	}
	return all
}

func (s *Sheet) step(a, b Contact) (Step, bool) {
	figure := s.Figures[a.Figure-1]
	dx, dy := s.apart(a, b)
	step := Step{
		Shot: a.Shot, Figure: a.Figure, From: a.ID, To: b.ID, Start: a.Start, End: b.Start,
		Frames: b.Start - a.Start, Seconds: s.Clip.length(b.Start - a.Start),
		Length: math.Hypot(dx, dy) / figure.Height, Direction: direction(dx, dy),
		Timed: a.Start > max(figure.Start, s.Shots[a.Shot-1].Start),
	}
	return step, step.Length >= stepLength && step.Seconds >= stepSeconds && !s.hopped(a, b)
}

// hopped reports whether a figure hopped from one contact to the other.
func (s *Sheet) hopped(a, b Contact) bool {
	return slices.ContainsFunc(s.Flights, func(f Flight) bool {
		return f.Figure == a.Figure && f.Shot == a.Shot && f.Start > a.Start && f.End < b.Start && s.IsHop(f)
	})
}

// apart is how far the spot of b lies from that of a on b's first frame, pixels
// along the ground with the camera's travel taken out.
func (s *Sheet) apart(a, b Contact) (dx, dy float64) {
	share := float64(min(b.Start, a.End)-a.Start) / float64(max(1, a.End-a.Start))
	cx, cy := s.cameraTravel(a.Start, b.Start)
	return b.X + cx - a.X - a.SlipPx*share, b.Y + cy - a.Y
}

// cameraTravel adds up the camera's travel after frame from up to frame to.
func (s *Sheet) cameraTravel(from, to int) (x, y float64) {
	for t := from + 1; t <= to; t++ {
		step := s.Curve.Camera[t-s.Clip.FirstFrame]
		x, y = x+step[0], y+step[1]
	}
	return x, y
}

func direction(dx, dy float64) string {
	if math.Abs(dx) >= math.Abs(dy) {
		return side(dx, "right", "left")
	}
	return side(dy, "towards", "away")
}
