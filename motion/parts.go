package motion

import (
	"maps"
	"math"
	"slices"
	"strings"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/motion/looks"
	"holdfast/motion/parts"
)

// A Part is something of a figure that was shown by hand, as it was followed
// through one shot.
type Part struct {
	Name   string
	Shot   int          // index into Result.Shots
	Start  int          // the shot's first frame
	Height float64      // figure height that travel is measured in, pixels
	Steps  []parts.Step // one a frame of the shot
	Beats  []beats.Beat // of each stretch in which it was seen; they leave out the others
	Looks  []looks.Look // of a head or eyes
}

// Motion is the part's travel to each frame from the one before, in figure heights
// with the camera taken out; NaN where it was not seen on both.
func (p *Part) Motion() []float64 {
	list := make([]float64, len(p.Steps))
	for i, s := range p.Steps {
		list[i] = s.Travel / p.Height
	}
	return list
}

// Runs are the stretches of frames in which the part was seen, as indices into
// Steps, both ends included. A part that was found again elsewhere starts a new one.
func (p *Part) Runs() [][2]int {
	var runs [][2]int
	for i, s := range p.Steps {
		switch n := len(runs); {
		case !s.Seen():
		case n > 0 && runs[n-1][1] == i-1 && !math.IsNaN(s.Travel):
			runs[n-1][1] = i
		default:
			runs = append(runs, [2]int{i, i})
		}
	}
	return runs
}

// A partTrack follows one part through a shot.
type partTrack struct {
	*parts.Follower
	steps []parts.Step // one a frame of the shot so far
}

// partMarks are the marks on parts in the next n frames, as a stretch counts them,
// by name and in order of their frames.
func (s *shot) partMarks(n int) (names []string, marks map[string][]parts.Mark) {
	marks = map[string][]parts.Mark{}
	for _, m := range s.o.Marks.Parts {
		if t := m.Frame - s.first; t >= 0 && t < n {
			m.Frame = t
			if !slices.Contains(names, m.Name) {
				names = append(names, m.Name)
			}
			marks[m.Name] = append(marks[m.Name], m)
		}
	}
	for _, list := range marks {
		slices.SortStableFunc(list, func(a, b parts.Mark) int { return a.Frame - b.Frame })
	}
	return names, marks
}

// follow follows the parts that were shown through the next frames, the way of the
// camera through which is path.
func (s *shot) follow(found *figure.Found, path []camera.Similarity) error {
	names, marks := s.partMarks(len(path))
	for _, name := range names {
		if !slices.ContainsFunc(s.parts, func(p *partTrack) bool { return p.Name == name }) {
			s.parts = append(s.parts, &partTrack{Follower: parts.NewFollower(name, gazeOf(name))})
		}
	}
	if len(s.parts) == 0 {
		return nil
	}
	in := &parts.Stretch{W: s.o.Size.X, H: s.o.Size.Y, Path: path}
	for _, l := range s.layers[:len(path)] {
		in.Luma = append(in.Luma, l.Luma)
	}
	if len(found.Bodies) > 0 {
		in.On = func(t, x, y int) bool { return found.Bodies[t].At(x/figure.Shrink, y/figure.Shrink) }
	}
	ways := bodies(found, in)
	for _, p := range s.parts {
		for len(p.steps) < s.first-s.start {
			p.steps = append(p.steps, parts.Unseen())
		}
		steps, err := p.Follow(in, marks[p.Name], s.steps[0].fit.Motion)
		if err != nil {
			return err
		}
		for t := range steps {
			steps[t].BodyX, steps[t].BodyY = ways[t][0], ways[t][1]
		}
		p.steps = append(p.steps, steps...)
	}
	return nil
}

// addParts adds the shot's parts to the result; height is that of its figures,
// pixels.
func (s *shot) addParts(r *Result, index int, height float64) {
	for _, p := range s.parts {
		r.Parts = append(r.Parts, Part{Name: p.Name, Shot: index, Start: s.start, Height: height, Steps: p.steps})
	}
}

// tellParts reads beats out of the travel of all parts. A move's size is set against
// the biggest of its part.
func (r *Result) tellParts(rate float64) {
	for i := range r.Parts {
		p := &r.Parts[i]
		motion := p.Motion()
		for _, run := range p.Runs() {
			o := beats.Options{Rate: rate, Repeats: r.Repeats.From(p.Start + run[0])}
			if run[1]-run[0]+1 < o.MinHold() {
				continue // too short to say anything of
			}
			series := beats.Series{Max: slices.Clone(motion[run[0] : run[1]+1])}
			series.Max[0] = 0
			series.Mean = series.Max
			if floor := r.series[p.Shot].Floor; len(floor) > run[1] {
				series.Floor = floor[run[0] : run[1]+1]
			}
			for _, b := range beats.Find(series, beats.Exposures(series, o), o) {
				p.Beats = append(p.Beats, later(b, p.Start+run[0]))
			}
		}
		p.look(rate)
	}
	r.weighParts()
	r.tellTwins(rate)
}

// look tells where a head or eyes look.
func (p *Part) look(rate float64) {
	gaze := gazeOf(p.Name)
	if gaze == parts.NoGaze {
		return
	}
	s := looks.Series{Rate: rate, Eyes: gaze == parts.EyesGaze}
	var widths []float64
	for _, step := range p.Steps {
		s.X, s.Y, s.Own = append(s.X, step.LookX), append(s.Y, step.LookY), append(s.Own, math.Hypot(step.DX, step.DY))
		if step.Seen() {
			widths = append(widths, step.Box.W)
		}
	}
	if len(widths) == 0 {
		return
	}
	slices.Sort(widths)
	s.Width = widths[len(widths)/2]
	for _, l := range looks.Find(s) {
		l.Start, l.End, l.Peak = l.Start+p.Start, l.End+p.Start, l.Peak+p.Start
		p.Looks = append(p.Looks, l)
	}
}

// later counts a beat's frames from as many frames earlier.
func later(b beats.Beat, frames int) beats.Beat {
	b.Start, b.End = b.Start+frames, b.End+frames
	if b.Kind == beats.Move {
		b.Peak += frames
	}
	return b
}

// weighParts sets each move's size against the biggest of its part in the clip.
func (r *Result) weighParts() {
	most := map[string]float64{}
	for _, p := range r.Parts {
		for _, b := range p.Beats {
			most[p.Name] = max(most[p.Name], b.Travel)
		}
	}
	for _, p := range r.Parts {
		for i := range p.Beats {
			if m := most[p.Name]; m > 0 {
				p.Beats[i].Size = p.Beats[i].Travel / m
			}
		}
	}
}

// partSettings are the thresholds that parts were followed by, if any were.
func (r *Result) partSettings() map[string]any {
	if len(r.Parts) == 0 {
		return nil
	}
	all := parts.Settings()
	maps.Copy(all, looks.Settings())
	return all
}

// gazeOf says how a part of some name looks about: heads and eyes do.
func gazeOf(name string) parts.Gaze {
	words := strings.Fields(strings.ToLower(name))
	switch last := words[len(words)-1]; last {
	case "head":
		return parts.HeadGaze
	case "eye", "eyes":
		return parts.EyesGaze
	}
	return parts.NoGaze
}
