package beats

import "slices"

const (
	// repeatShare is the most that a repeated picture may change against the
	// lesser of its neighbours: coding leaves a little of the grain's work.
	repeatShare = 0.25
	// repeatSure is the share of the frames in step that must repeat, and
	// repeatLively that of the others that must not, for a fixed pattern. A
	// clip drawn on twos holds still now and then; a conformed one does not,
	// as its grain or its camera changes on every new frame.
	repeatSure, repeatLively = 0.95, 0.8
	// repeatCycles is how many times a pattern must come round.
	repeatCycles = 4
	// repeatLongest is the longest cycle looked for: 24 frames in 25.
	repeatLongest = 30
	// repeatLeast is the change, in levels, under which a picture is the same
	// as the one before whatever its neighbours do: under the lightest grain.
	repeatLeast = 0.05
)

// FindRepeats looks for a fixed pattern of repeated pictures. change holds for
// each frame how much its still parts differ from the frame before, in levels;
// the first value is not looked at. It returns nil where there is none. What
// has neither grain nor a camera that moves shows the same whether it was
// conformed or drawn on twos, and is taken for drawn.
func FindRepeats(change []float64) *Repeats {
	repeated, lively := repeatedFrames(change)
	for every := 2; every <= repeatLongest && every*repeatCycles < len(change); every++ {
		for first := 1; first <= every; first++ {
			if inStep(repeated, lively, every, first) {
				return &Repeats{Every: every, First: first}
			}
		}
	}
	return nil
}

// repeatedFrames tells which frames repeat the one before though something
// changes right before and after, and which change at all.
func repeatedFrames(change []float64) (repeated, lively []bool) {
	repeated, lively = make([]bool, len(change)), make([]bool, len(change))
	for i := 1; i < len(change); i++ {
		lively[i] = change[i] > repeatLeast
		before, after := i-1, i+1
		if before < 1 {
			before = after
		}
		if after >= len(change) {
			after = before
		}
		if before < 1 || before >= len(change) {
			continue
		}
		least := min(change[before], change[after])
		repeated[i] = least > repeatLeast && change[i] <= repeatShare*least
	}
	return repeated, lively
}

// inStep reports whether one frame in every, from first on, repeats and the
// others do not.
func inStep(repeated, lively []bool, every, first int) bool {
	var at, hits, others, live int
	for i := 1; i < len(repeated); i++ {
		if (i-first)%every == 0 {
			at++
			if repeated[i] {
				hits++
			}
			continue
		}
		others++
		if lively[i] && !repeated[i] {
			live++
		}
	}
	return at >= repeatCycles && float64(hits) >= repeatSure*float64(at) && float64(live) >= repeatLively*float64(others)
}

// At reports whether frame i repeats the one before.
func (r *Repeats) At(i int) bool {
	return r != nil && i > 0 && (i-r.First)%r.Every == 0
}

// times is for how many frames each picture is shown, 1 where that differs.
func (r *Repeats) times() float64 {
	if r != nil && r.Every == 2 {
		return 2
	}
	return 1
}

// From returns the repeats counted from a frame of the clip.
func (r *Repeats) From(frame int) *Repeats {
	if r == nil {
		return nil
	}
	return &Repeats{Every: r.Every, First: r.First - frame}
}

// quiet returns the series with nothing moving on repeated pictures: what coding
// mends of them is no travel.
func (s Series) quiet(r *Repeats) Series {
	if r == nil {
		return s
	}
	s.Max, s.Mean, s.Wide = slices.Clone(s.Max), slices.Clone(s.Mean), slices.Clone(s.Wide)
	for i := range s.Max {
		if r.At(i) {
			s.Max[i], s.Mean[i] = 0, 0
			if s.Wide != nil {
				s.Wide[i] = 0
			}
		}
	}
	return s
}

// withoutRepeats returns the series of those pictures that are new, and the
// frame of each, with the number of frames after the last.
func (s Series) withoutRepeats(r *Repeats) (shown Series, frames []int) {
	for i := range s.Max {
		if r.At(i) {
			continue
		}
		frames = append(frames, i)
		shown.Max, shown.Mean = append(shown.Max, s.Max[i]), append(shown.Mean, s.Mean[i])
		shown.Floor = append(shown.Floor, s.floor(i))
	}
	return shown, append(frames, len(s.Max))
}
