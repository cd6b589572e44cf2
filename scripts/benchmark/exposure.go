package main

import (
	"fmt"
	"strings"
)

// exposureListed is the share of a clip's frames that must be right for the
// clip not to be listed: the first and the last drawing of a stretch may be
// taken either way.
const exposureListed = 0.9

// judgeExposure compares the pattern frame by frame where drawings change:
// within true moves, and all over stepped stretches, which have none. Where
// figures differ the one that travels farthest is meant.
func judgeExposure(t *trial) {
	var sum Share
	wrong := map[string]int{} // "pattern, not the true one": frames
	for shot, s := range t.truth.Shots {
		names := t.series[shot].names
		for f := s.Start; f <= s.End; f++ {
			want := names[f-s.Start]
			if want == "" || want != "stepped" && !t.inMove(shot, f) {
				continue
			}
			got := t.patternFound(f)
			sum.count(got == want)
			if got != want {
				wrong[want+", "+got]++
			}
		}
	}
	t.score.Exposure = sum
	if sum.Of > 0 && sum.Value() < exposureListed {
		want, got, _ := strings.Cut(most(wrong), ", ")
		t.fault("exposure", want, fmt.Sprintf("%s, %d of %d frames right", got, sum.Right, sum.Of))
	}
}

func (t *trial) inMove(shot, frame int) bool {
	for _, b := range t.whole[shot] {
		if frame >= b.Start && frame <= b.End {
			return !b.Hold
		}
	}
	return false
}

// patternFound returns the pattern that the result gives for a frame.
func (t *trial) patternFound(frame int) string {
	for _, e := range t.result.Exposure {
		if e.Figure == 0 && frame >= e.Start && frame <= e.End {
			return e.Pattern
		}
	}
	return "none"
}

// most returns the key of the largest value, the first by name among equals.
func most(m map[string]int) string {
	best := ""
	for k, v := range m {
		if best == "" || v > m[best] || v == m[best] && k < best {
			best = k
		}
	}
	return best
}

// judgeRepeats compares whether, and how often, whole pictures repeat.
func judgeRepeats(t *trial) {
	want, got := "none", "none"
	if r := t.truth.Repeats; r != nil {
		want = fmt.Sprintf("one in %d, the first on %d", r.Every, r.First)
	}
	if r := t.result.Repeats; r != nil {
		got = fmt.Sprintf("one in %d, the first on %d", r.Every, r.First)
	}
	t.score.Repeats.count(want == got)
	if want != got {
		t.fault("repeats", want, got)
	}
}
