package main

import (
	"context"
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
	var clips []scored[whereScore]
	for _, r := range list {
		clips = append(clips, scored[whereScore]{r.Scene, func(s *sheet.Sheet) whereScore {
			return scoreDelays(r, s.Reactions)
		}})
	}
	return renderScores(ctx, w, "REACTIONS: drawn figures that answer each other", []string{"answers", "missed", "false", "delay within 1", "worst delay"}, clips)
}

// scoreDelays matches reactions with the answers drawn, by the frame on which the
// answer sets off. The worst delay is by how many frames it is wrong.
func scoreDelays(r scene.Reacting, found []sheet.Reaction) (score whereScore) {
	const reach = 4 // frames: less than half of what lies between two answers
	score.Counts = Counts{True: len(r.Delays), Found: len(found)}
	for i, delay := range r.Delays {
		for _, f := range found {
			off := f.Start - r.Answers[i]
			if off < -reach || off > reach {
				continue
			}
			score.match(max(f.FromMove-delay, delay-f.FromMove), 1)
			break
		}
	}
	return score
}
