package main

import (
	"context"
	"image"
	"io"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

const (
	// turningClips is how many clips with parts by lot are drawn.
	turningClips = 8
	// turningNear is how far off a change may be told, frames.
	turningNear = 3
)

// scoreTurnings says how many of the frames are found on which a drawn figure turns
// lively or quiet.
func scoreTurnings(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Turnings(size, turningClips)
	if err != nil {
		return err
	}
	var clips []scored[whereScore]
	for _, r := range list {
		clips = append(clips, scored[whereScore]{r.Scene, func(s *sheet.Sheet) whereScore {
			return scoreChanges(r.Changes, s.Lively)
		}})
	}
	return renderScores(ctx, w, "LIVELY AND QUIET: a drawn figure, by turns", []string{"changes", "missed", "false", "within 3", "worst"}, clips)
}

// scoreChanges matches changes with those drawn, which lie three seconds apart at
// least. Frames of the truth count from 0, as those of the sheet here.
func scoreChanges(want []int, found []sheet.Lively) (score whereScore) {
	const reach = 24 // frames
	var starts []int
	for i, l := range found {
		if i > 0 && l.Figure == 0 {
			starts = append(starts, l.Start)
		}
	}
	score.Counts = Counts{True: len(want), Found: len(starts)}
	for _, n := range want {
		for _, s := range starts {
			if off := max(s-n, n-s); off <= reach {
				score.match(off, turningNear)
				break
			}
		}
	}
	return score
}
