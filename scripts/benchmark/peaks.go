package main

import (
	"fmt"
	"slices"

	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// peakWindow is how many frames a peak may lie off and still be that peak,
// itself included.
const peakWindow = 1

// judgePeaks pairs the peaks of true and found moves. Where several frames of
// a move travel as far as its peak does, each of them is the peak.
func judgePeaks(t *trial) {
	truth, found := t.trueBeats(false), t.foundBeats(beats.Move)
	partner := match(len(truth), len(found), func(i, j int) bool {
		p := found[j].Peak
		return abs(p-truth[i].Peak) <= peakWindow || slices.Contains(truth[i].Ties, p)
	})
	t.score.Peaks = Counts{True: len(truth), Found: len(found)}
	var missed []scene.Beat
	for i, j := range partner {
		if j < 0 {
			missed = append(missed, truth[i])
			continue
		}
		t.score.Peaks.Matched++
	}
	var extra []beats.Beat
	for _, j := range unmatched(partner, len(found)) {
		extra = append(extra, found[j])
	}
	t.listPeaks(missed, extra)
}

// listPeaks names the peaks without a partner, those of the same move together.
func (t *trial) listPeaks(missed []scene.Beat, extra []beats.Beat) {
	partner := match(len(missed), len(extra), func(i, j int) bool {
		return overlap(missed[i].Start, missed[i].End, extra[j].Start, extra[j].End) >= holdOverlap
	})
	for i, j := range partner {
		got := "missed"
		if j >= 0 {
			got = describePeak(extra[j].Peak, extra[j].Start, extra[j].End) + t.beside(extra[j].Peak, missed[i].Peak)
		}
		t.fault("peak", describePeak(missed[i].Peak, missed[i].Start, missed[i].End), got)
	}
	for _, j := range unmatched(partner, len(extra)) {
		t.fault("peak", "none", describePeak(extra[j].Peak, extra[j].Start, extra[j].End))
	}
}

func describePeak(peak, start, end int) string {
	return fmt.Sprintf("%d in move %d-%d", peak, start, end)
}

// beside says how much truly travels on a frame against what does on the peak:
// whether a peak was all but a tie.
func (t *trial) beside(frame, peak int) string {
	most := t.trueMean(peak)
	if most == 0 {
		return ""
	}
	return fmt.Sprintf(", %.0f %% of its travel", 100*t.trueMean(frame)/most)
}

// trueMean is the whole picture's mean travel on a frame, pixels.
func (t *trial) trueMean(frame int) float64 {
	for _, s := range t.series {
		if i := frame - s.start; i >= 0 && i < len(s.mean) {
			return s.mean[i]
		}
	}
	return 0
}
