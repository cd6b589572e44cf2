package main

import (
	"fmt"
	"image"

	"holdfast/motion"
	"holdfast/motion/beats"
	"holdfast/motion/scene"
	"holdfast/motion/scene/solid"
	"holdfast/sheet"
)

// A trial is one scene under one condition at one size, measured and judged.
type trial struct {
	set, scene, variant string

	size   image.Point // as drawn and displayed
	frames int
	rate   float64

	truth  scene.Truth
	series []*series      // of the whole picture, by shot
	whole  [][]scene.Beat // the beats of the series
	feet   *solid.Truth   // what else is true of a solid scene; nil of a drawn one
	result *motion.Result
	scale  float64      // displayed pixels to a working one
	sheet  *sheet.Sheet // of the result, frames from 0

	figurePair []int       // the found figure of each true one, -1 for none
	figureOf   map[int]int // the other way round, by the number in the sheet
	stands     []stand     // true contacts

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
	t.pairFigures()
	t.pairStands()
	for _, j := range judges {
		if t.set == setDrawn || !j.acted {
			j.judge(t)
		}
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
