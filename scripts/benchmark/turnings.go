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
	t := newTable("LIVELY AND QUIET: a drawn figure that is both by turns", 1, "clip", "changes", "missed", "false", "within 3", "worst")
	var all Counts
	var near Share
	for _, r := range list {
		s, err := sheetOf(ctx, r.Scene)
		if err != nil {
			return err
		}
		c, within, worst := scoreChanges(r.Changes, s.Lively)
		all.add(c)
		near.add(within)
		t.AppendRow([]any{r.Name, c.True, c.missed(), c.extra(), outOf(within.Right, within.Of), worst})
	}
	t.AppendRow([]any{"all", all.True, all.missed(), all.extra(), outOf(near.Right, near.Of), ""})
	return render(w, t)
}

// scoreChanges matches changes with those drawn, which lie three seconds apart at
// least. Frames of the truth count from 0, as those of the sheet here.
func scoreChanges(want []int, found []sheet.Lively) (c Counts, within Share, worst int) {
	const reach = 24 // frames
	var starts []int
	for i, l := range found {
		if i > 0 && l.Figure == 0 {
			starts = append(starts, l.Start)
		}
	}
	c = Counts{True: len(want), Found: len(starts)}
	for _, n := range want {
		for _, s := range starts {
			if off := max(s-n, n-s); off <= reach {
				c.Matched++
				within.count(off <= turningNear)
				worst = max(worst, off)
				break
			}
		}
	}
	return c, within, worst
}
