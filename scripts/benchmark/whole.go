package main

import (
	"slices"

	"holdfast/motion/scene"
)

// showing is the travel in pixels from which a step shows at all: what rounding
// leaves is far below, any drawn drift far above.
const showing = 1e-3

// A series is the true travel of the whole picture over one shot: of all its
// figures together, one value for each frame.
type series struct {
	start    int       // the shot's first frame
	farthest []float64 // figure heights a frame, the most of any figure, a pop spread over its pattern
	mean     []float64 // pixels, mean over the figures weighted by the area of their boxes
	alive    []bool    // something travels
	pattern  []int     // frames that a drawing stays up, the most of any figure
	names    []string  // exposure pattern of the figure that travels farthest
}

// newSeries puts the figures of one shot together. A step is still when it is
// still for all of them, so the farthest counts, each against its own height.
// The mean weighs each figure by the area of its box, as a mean over all that
// is figure in the picture does.
func newSeries(t scene.Truth, shot int) *series {
	s := t.Shots[shot]
	n := s.End - s.Start + 1
	v := &series{start: s.Start, farthest: make([]float64, n), mean: make([]float64, n),
		alive: make([]bool, n), pattern: filled(n, 1), names: make([]string, n)}
	weight, far := make([]float64, n), filledFloat(n, -1)
	for k := range t.Figures {
		f := &t.Figures[k]
		if f.Shot != shot {
			continue
		}
		for i := range n {
			v.include(f, i, t.Repeats, weight, far)
		}
	}
	for i, w := range weight {
		if w > 0 {
			v.mean[i] /= w
		}
	}
	return v
}

// include adds figure f to the i-th frame of the shot.
func (v *series) include(f *scene.FigureTruth, i int, repeats *scene.Repeats, weight, far []float64) {
	frame := v.start + i
	k, in := stepInto(f, frame, v.start)
	if !in {
		return
	}
	pattern, name := patternAt(f, f.Start+k, repeats)
	height := f.Height[k]
	v.farthest[i] = max(v.farthest[i], f.Max[k]/float64(pattern)/height)
	v.alive[i] = v.alive[i] || f.Max[k] > showing
	v.pattern[i] = max(v.pattern[i], pattern)
	b := f.Box[k]
	a := area(b)
	v.mean[i] += a * f.Mean[k]
	weight[i] += a
	if f.Max[k]/height > far[i] {
		far[i], v.names[i] = f.Max[k]/height, name
	}
}

// stepInto returns the index into f's slices of the step that leads to frame.
// A figure that comes in after the shot's start has no travel on its first
// frame and leaves with one more step than it has frames; both take the travel
// of the step beside them.
func stepInto(f *scene.FigureTruth, frame, start int) (k int, in bool) {
	last := f.End - f.Start
	switch k = frame - f.Start; {
	case k == 0 && frame > start:
		return min(1, last), true
	case k == last+1:
		return last, true
	}
	return k, k >= 0 && k <= last
}

// patternAt is how many frames f's drawing stays up on a frame, as the scenes'
// own definition counts them, and the name of the pattern.
func patternAt(f *scene.FigureTruth, frame int, repeats *scene.Repeats) (on int, name string) {
	on, name = 1, "ones"
	for _, e := range f.Exposure {
		if frame >= e.Start && frame <= e.End {
			name = e.Pattern
		}
	}
	if name == "stepped" {
		return 1, name
	}
	on = 1 + slices.Index([]string{"ones", "twos", "threes", "fours"}, name)
	if repeats != nil && repeats.Of%repeats.New == 0 {
		on *= repeats.Of / repeats.New
	}
	return on, name
}

// beats divides the shot into holds and moves by the definitions of package
// scene, here for all figures together.
func (v *series) beats(rate float64) []scene.Beat {
	var list []scene.Beat
	n, move := len(v.farthest), 0
	for i := 0; i < n; {
		j, alive, longest := i, 0, v.pattern[i]
		for j+1 < n && v.farthest[j+1] < scene.StillShare {
			j++
			longest = max(longest, v.pattern[j])
			if v.alive[j] {
				alive += v.pattern[j]
			}
		}
		if length := j - i + 1; length >= scene.MinHold(rate) && length > longest {
			if move < i {
				list = append(list, v.move(move, i-1))
			}
			share := min(1, float64(alive)/float64(j-i))
			list = append(list, scene.Beat{Hold: true, Start: v.start + i, End: v.start + j, Peak: -1, Alive: share, Moving: share >= 0.5})
			move = j + 1
		}
		i = j + 1
	}
	if move < n {
		list = append(list, v.move(move, n-1))
	}
	return list
}

// move makes the beat of a move from index i to index j.
func (v *series) move(i, j int) scene.Beat {
	peak := i
	for k := i; k <= j; k++ {
		if v.mean[k] > v.mean[peak] {
			peak = k
		}
	}
	b := scene.Beat{Start: v.start + i, End: v.start + j, Peak: v.start + peak}
	for k := i; k <= j; k++ {
		if v.mean[k] >= (1-scene.PeakTie)*v.mean[peak] {
			b.Ties = append(b.Ties, v.start+k)
		}
	}
	return b
}

func filledFloat(n int, v float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = v
	}
	return s
}
