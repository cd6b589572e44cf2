package main

import (
	"fmt"

	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// holdOverlap is the least share of the frames of two holds together that both
// must have for one to be the other: where more than half is common no third
// one can be as near.
const holdOverlap = 0.5

// edgeWindow is how many frames an edge may lie off before it is listed.
const edgeWindow = 1

// judgeHolds pairs true and found holds and takes the offsets of their edges.
// An edge that the clip or the cut gives away, because the true hold begins or
// ends with its shot, counts only when it was missed all the same.
func judgeHolds(t *trial) {
	truth, found := t.trueBeats(true), t.foundBeats(beats.Hold)
	partner := match(len(truth), len(found), func(i, j int) bool {
		return overlap(truth[i].Start, truth[i].End, found[j].Start, found[j].End) >= holdOverlap
	})
	t.score.Holds = Counts{True: len(truth), Found: len(found)}
	for i, j := range partner {
		if j < 0 {
			t.fault("hold", describeTrue(truth[i]), "missed")
			continue
		}
		t.score.Holds.Matched++
		t.compareHold(truth[i], found[j])
	}
	for _, j := range unmatched(partner, len(found)) {
		t.fault("hold", "none", describeFound(found[j]))
	}
}

func (t *trial) compareHold(truth scene.Beat, found beats.Beat) {
	start, end := found.Start-truth.Start, found.End-truth.End
	if start != 0 || !t.opensShot(truth.Start) {
		t.score.Starts = append(t.score.Starts, start)
	}
	if end != 0 || !t.closesShot(truth.End) {
		t.score.Ends = append(t.score.Ends, end)
	}
	right := truth.Moving == (found.Hold == beats.Moving)
	t.score.Alive.count(right)
	if !right || abs(start) > edgeWindow || abs(end) > edgeWindow {
		t.fault("hold", describeTrue(truth), describeFound(found))
	}
}

func (t *trial) opensShot(frame int) bool {
	for _, s := range t.truth.Shots {
		if s.Start == frame {
			return true
		}
	}
	return false
}

func (t *trial) closesShot(frame int) bool {
	for _, s := range t.truth.Shots {
		if s.End == frame {
			return true
		}
	}
	return false
}

// overlap is the number of frames that two ranges share, over the number that
// either has; both ends included.
func overlap(a0, a1, b0, b1 int) float64 {
	common := min(a1, b1) - max(a0, b0) + 1
	if common <= 0 {
		return 0
	}
	return float64(common) / float64(a1-a0+1+b1-b0+1-common)
}

func describeTrue(b scene.Beat) string {
	kind := beats.Frozen
	if b.Moving {
		kind = beats.Moving
	}
	return fmt.Sprintf("%s %d-%d", kind, b.Start, b.End)
}

func describeFound(b beats.Beat) string { return fmt.Sprintf("%s %d-%d", b.Hold, b.Start, b.End) }
