package motion

import (
	"fmt"

	"holdfast/motion/camera"
	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/parts"
	"holdfast/motion/travel"
)

// Marks are what a person has shown by hand, in working pixels; frames count from
// 0.
type Marks struct {
	Ground  []GroundMark
	Figures []figure.Mark
	Feet    []feet.Mark
	Parts   []parts.Mark
}

// EveryShot stands for a frame where a mark holds from the first frame of every
// shot on.
const EveryShot = -1

// A GroundMark is a line on which figures stand in the shot that holds Frame, as
// that frame shows it.
type GroundMark struct {
	Frame int // or EveryShot
	feet.Line
}

// A MarkError says that something was shown on a frame that the clip has not.
type MarkError struct {
	Frame, Frames int // index of the frame; how many the clip has
}

func (e *MarkError) Error() string {
	return fmt.Sprintf("a mark is on frame %d of a clip that has %d", e.Frame+1, e.Frames)
}

// check looks for marks beyond the last frame.
func (m *Marks) check(frames int) error {
	var list []int
	for _, g := range m.Ground {
		list = append(list, g.Frame)
	}
	for _, f := range m.Figures {
		list = append(list, f.Frame)
	}
	for _, f := range m.Feet {
		list = append(list, f.Frame)
	}
	for _, p := range m.Parts {
		list = append(list, p.Frame)
	}
	for _, frame := range list {
		if frame >= frames {
			return &MarkError{frame, frames}
		}
	}
	return nil
}

// A Trail is where a marked foot was followed to.
type Trail struct {
	Shot       int // index into Result.Shots
	Mark       int // index into Options.Marks.Feet
	Start, End int
}

// feetMarks are the marks on feet in the next n frames, as a stretch counts them,
// and the index of each into the list of all.
func (s *shot) feetMarks(n int) (marks []feet.Mark, index []int) {
	for i, m := range s.o.Marks.Feet {
		if t := m.Frame - s.first; t >= 0 && t < n {
			m.Frame = t
			marks, index = append(marks, m), append(index, i)
		}
	}
	return marks, index
}

// nothingShown warns of a box that was shown in vain.
const nothingShown = "nothing stands out in a box that was shown: draw it around the whole figure, with ground on every side"

// find tells the figures of the next frames, the way of the camera through which is
// path: those that are shown, or those that there are.
func (s *shot) find(path []camera.Similarity, maps []*travel.Map) (*figure.Found, error) {
	n := len(path)
	marks := s.figureMarks(n)
	s.handed = nil
	if len(marks) == 0 {
		return figure.Find(s.layers[:n], path, maps, s.o.Rate)
	}
	found, err := figure.FindShown(s.layers[:n], path, maps, s.o.Rate, marks)
	if err != nil {
		return nil, err
	}
	s.unseen = s.unseen || len(found.Figures) == 0
	for i := range found.Figures {
		if b := found.Figures[i].At(n - 1); !b.Empty() {
			s.handed = append(s.handed, figure.Mark{Box: b})
		}
	}
	return found, nil
}

// figureMarks are the boxes shown in the next n frames, or where those of the frames
// before them were last.
func (s *shot) figureMarks(n int) []figure.Mark {
	var marks []figure.Mark
	for _, m := range s.o.Marks.Figures {
		if t := m.Frame - s.first; t >= 0 && t < n {
			m.Frame = t
			marks = append(marks, m)
		}
	}
	if len(marks) == 0 {
		return s.handed
	}
	return marks
}

// groundLine is the line on which figures stand in the next frames, the way of the
// camera through which is path; nil where none was shown. One that is shown on a
// later frame is not known yet.
func (s *shot) groundLine(path []camera.Similarity) *feet.Line {
	var best *GroundMark
	for i := range s.o.Marks.Ground {
		g := &s.o.Marks.Ground[i]
		if g.Frame == EveryShot && best == nil || g.Frame >= s.start && g.Frame < s.first+len(path) {
			best = g
		}
	}
	if best == nil {
		return nil
	}
	way := s.wayFrom(max(best.Frame, s.start), path)
	mx, my := float64(s.o.Size.X-1)/2, float64(s.o.Size.Y-1)/2
	x0, y0 := way.Apply(best.X0-mx, best.Y0-my)
	x1, y1 := way.Apply(best.X1-mx, best.Y1-my)
	return &feet.Line{X0: x0 + mx, Y0: y0 + my, X1: x1 + mx, Y1: y1 + my}
}

// wayFrom is the camera's way from a frame of the shot to the first one kept.
func (s *shot) wayFrom(frame int, path []camera.Similarity) camera.Similarity {
	if frame >= s.first {
		return path[frame-s.first].Inverse()
	}
	way := camera.Identity
	for _, step := range s.camera[frame+1-s.start:] {
		way = way.Then(step)
	}
	return way.Then(s.steps[0].fit.Motion)
}
