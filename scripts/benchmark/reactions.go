package main

import (
	"context"
	"fmt"
	"image"
	"io"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// reactingClips is how many clips with delays by lot are drawn.
const reactingClips = 6

// scoreReactions says how many answers of one drawn figure to another are found, and
// how many of their delays are told within a frame.
func scoreReactions(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Reactions(size, reactingClips)
	if err != nil {
		return err
	}
	t := newTable("REACTIONS: drawn figures that answer each other", 1, "clip", "answers", "missed", "false", "delay within 1", "worst delay")
	var all Counts
	var near Share
	for _, r := range list {
		s, err := sheetOf(ctx, r.Scene)
		if err != nil {
			return err
		}
		c, within, worst := scoreDelays(r, s.Reactions)
		all.add(c)
		near.add(within)
		t.AppendRow([]any{r.Name, c.True, c.missed(), c.extra(), outOf(within.Right, within.Of), fmt.Sprint(worst)})
	}
	t.AppendRow([]any{"all", all.True, all.missed(), all.extra(), outOf(near.Right, near.Of), ""})
	return render(w, t)
}

// scoreDelays matches reactions with the answers drawn, by the frame on which the
// answer sets off. The worst delay is by how many frames it is wrong.
func scoreDelays(r scene.Reacting, found []sheet.Reaction) (c Counts, within Share, worst int) {
	const reach = 4 // frames: less than half of what lies between two answers
	c = Counts{True: len(r.Delays), Found: len(found)}
	for i, delay := range r.Delays {
		for _, f := range found {
			off := f.Start - r.Answers[i]
			if off < -reach || off > reach {
				continue
			}
			c.Matched++
			wrong := max(f.FromMove-delay, delay-f.FromMove)
			within.count(wrong <= 1)
			worst = max(worst, wrong)
			break
		}
	}
	return c, within, worst
}
