package main

import (
	"fmt"
	"image"

	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// A trial is one scene under one condition at one size, measured and judged.
type trial struct {
	scene, variant string
	size           image.Point // as drawn and displayed
	frames         int
	rate           float64

	truth  scene.Truth
	series []*series      // of the whole picture, by shot
	whole  [][]scene.Beat // the beats of the series
	result *motion.Result
	scale  float64 // displayed pixels to a working one

	score  Score
	faults []Fault
}

func sizeName(p image.Point) string { return fmt.Sprintf("%dx%d", p.X, p.Y) }

// judge compares the result with the truth.
func (t *trial) judge() {
	t.score.Trials = 1
	for i := range t.truth.Shots {
		s := newSeries(t.truth, i)
		t.series, t.whole = append(t.series, s), append(t.whole, s.beats(t.rate))
	}
	if t.result.Frames != t.truth.Frames {
		t.fault("frames", count(t.truth.Frames), count(t.result.Frames))
	}
	for _, j := range judges {
		j(t)
	}
}

// trueBeats returns all holds, or all moves, of the whole picture.
func (t *trial) trueBeats(hold bool) (list []scene.Beat) {
	for _, shot := range t.whole {
		for _, b := range shot {
			if b.Hold == hold {
				list = append(list, b)
			}
		}
	}
	return list
}

// foundBeats returns the found beats of a kind of the whole picture.
func (t *trial) foundBeats(kind string) (list []beats.Beat) {
	for _, b := range t.result.Beats {
		if b.Figure == 0 && b.Kind == kind {
			list = append(list, b.Beat)
		}
	}
	return list
}
