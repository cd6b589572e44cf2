package main

import (
	"fmt"
	"math"
)

const (
	// impactWindow is how far off an impact may be, frames.
	impactWindow = 0.5
	// bounceWithin is how far off a restitution may be before it is listed.
	bounceWithin = 0.03
)

// judgeImpacts pairs true and found impacts and takes the errors of their
// restitutions.
func judgeImpacts(t *trial) {
	truth, found := t.truth.Impacts, t.sheet.Impacts
	partner := assign(len(truth), len(found), func(i, j int) float64 {
		far := math.Abs(found[j].Frame-truth[i].Frame) / impactWindow
		if !t.mayBe(found[j].Figure, truth[i].Figure) || far > 1 {
			return math.NaN()
		}
		return 1 - far
	})
	t.score.Impacts = Counts{True: len(truth), Found: len(found)}
	for i, j := range partner {
		if j < 0 {
			t.fault("impact", fmt.Sprintf("%.2f", truth[i].Frame), "missed")
			continue
		}
		t.score.Impacts.Matched++
		if !truth[i].Last {
			t.compareBounce(truth[i].Frame, truth[i].Restitution, found[j].Restitution)
		}
	}
	for _, j := range unmatched(partner, len(found)) {
		t.fault("impact", "none", fmt.Sprintf("%.2f", found[j].Frame))
	}
}

// compareBounce takes the error of a restitution; one that was not given is
// wrong, by no amount.
func (t *trial) compareBounce(frame, want float64, got *float64) {
	if got == nil {
		t.score.Bounces.count(false)
		t.fault("bounce", fmt.Sprintf("%.2f at %.2f", want, frame), "none")
		return
	}
	off := math.Abs(*got - want)
	t.score.Bounce = append(t.score.Bounce, off)
	t.score.Bounces.count(off <= bounceWithin)
	if off > bounceWithin {
		t.fault("bounce", fmt.Sprintf("%.2f at %.2f", want, frame), fmt.Sprintf("%.2f", *got))
	}
}
