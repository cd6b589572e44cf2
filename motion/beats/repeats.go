package beats

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
	// as the one before whatever its neighbours do.
	repeatLeast = 1e-3
)

// FindRepeats looks for a fixed pattern of repeated pictures. change holds for
// each frame how much the whole picture differs from the frame before, in any
// unit; the first value is not looked at. It returns nil where there is none.
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
