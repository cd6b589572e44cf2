package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"math"
	"slices"
	"strings"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

const (
	// posingClips is how many clips with poses by lot are drawn.
	posingClips = 8
	// leanNear is how far off a lean may be and be near, degrees; sizeNear and
	// contrastNear the same for widths and heights, in figure heights, and contrasts.
	leanNear, sizeNear, contrastNear = 3, 0.04, 0.1
	// contrastReach is by how many stage units two poses may be shifted to lie
	// on each other.
	contrastReach = 24
)

// A poseScore is what is found of the poses held in a clip.
type poseScore struct {
	Counts
	lean, size, contrast Share
	worst                [3]float64 // degrees, figure heights, share
	back                 Counts     // poses that come back
}

func (s *poseScore) add(o poseScore) {
	s.Counts.add(o.Counts)
	s.lean.add(o.lean)
	s.size.add(o.size)
	s.contrast.add(o.contrast)
	for i, w := range o.worst {
		s.worst[i] = max(s.worst[i], w)
	}
	s.back.add(o.back)
}

func (s *poseScore) row(name string) []any {
	told := func(of Share, worst string) string { return outOf(of.Right, of.Of) + ", " + worst }
	return []any{name, s.True, s.missed(), s.extra(),
		told(s.lean, fmt.Sprintf("%.1f°", s.worst[0])), told(s.size, fmt.Sprintf("%.0f %%", 100*s.worst[1])),
		told(s.contrast, fmt.Sprintf("%.0f %%", 100*s.worst[2])),
		outOf(s.back.Matched, s.back.True), s.back.extra()}
}

// scorePoses says how near the silhouettes of held poses are measured to those drawn, and
// whether a pose that comes back is told.
func scorePoses(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Posings(size, posingClips)
	if err != nil {
		return err
	}
	var clips []scored[poseScore]
	for _, p := range list {
		clips = append(clips, scored[poseScore]{p.Scene, func(s *sheet.Sheet) poseScore { return posesOf(p, s) }})
	}
	return renderScores(ctx, w, "POSES: drawn figures that strike some; how many are near, and the worst",
		[]string{"poses", "missed", "false", "lean within 3°", "size within 4 %", "contrast within 10 %", "comes back", "false"}, clips)
}

// posesOf holds the poses of a sheet to those drawn, by their frames.
func posesOf(p scene.Posing, s *sheet.Sheet) (score poseScore) {
	truth := p.Truth().Figures[0]
	score.Counts = Counts{True: len(p.Holds), Found: len(s.Poses)}
	place := map[int]int{} // beat: which of the holds
	var before *scene.Outline
	for _, o := range s.Poses {
		middle := (o.Start + o.End) / 2
		k := -1
		for i, h := range p.Holds {
			if middle >= h[0] && middle <= h[1] {
				k = i
			}
		}
		outline, ok := p.Outline(p.Figure, middle)
		if k < 0 || !ok {
			continue
		}
		score.Matched++
		place[o.Beat] = k
		score.compare(o, outline, before, truth.Height[middle-truth.Start], contrastReach*p.Height/scene.StageHeight)
		before = &outline
		if p.Back[k] >= 0 {
			score.back.True++
		}
		if o.Back > 0 {
			score.back.Found++
			if b, ok := place[o.Back]; ok && p.Back[k] >= 0 && (b == p.Back[k] || p.Back[b] == p.Back[k]) {
				score.back.Matched++
			}
		}
	}
	return score
}

// compare holds what is measured of a pose to its outline, of a figure so tall, and that
// of the pose before, if any, shifted by as many pixels as reach.
func (s *poseScore) compare(o sheet.Pose, outline scene.Outline, before *scene.Outline, tall float64, reach int) {
	count := func(of *Share, k int, off, near float64) {
		of.count(off <= near)
		s.worst[k] = max(s.worst[k], off)
	}
	if o.Lean != nil {
		count(&s.lean, 0, math.Abs(*o.Lean-outline.Lean()), leanNear)
	}
	w, h := outline.Size()
	count(&s.size, 1, math.Abs(o.Width-w/tall), sizeNear)
	count(&s.size, 1, math.Abs(o.Height-h/tall), sizeNear)
	if o.Contrast != nil && before != nil {
		count(&s.contrast, 2, math.Abs(*o.Contrast-outline.Contrast(*before, reach)), contrastNear)
	}
}

// scoreSpacing says how near the eases of moves are told to those drawn, and whether the
// words for them are right.
func scoreSpacing(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Swings(size)
	if err != nil {
		return err
	}
	var clips []scored[spacingScore]
	for _, d := range list {
		clips = append(clips, scored[spacingScore]{d.Scene, func(s *sheet.Sheet) spacingScore { return spacingOf(d, s) }})
	}
	return renderScores(ctx, w, "SPACING: drawn arms that ease in and out in known ways",
		[]string{"moves", "missed", "false", "eases within 1 frame", "worst", "words right"}, clips)
}

// A spacingScore is what is found of the moves in a clip.
type spacingScore struct {
	Counts
	eases Share
	worst float64 // frames
	words Share
}

func (s *spacingScore) add(o spacingScore) {
	s.Counts.add(o.Counts)
	s.eases.add(o.eases)
	s.worst = max(s.worst, o.worst)
	s.words.add(o.words)
}

func (s *spacingScore) row(name string) []any {
	return []any{name, s.True, s.missed(), s.extra(), outOf(s.eases.Right, s.eases.Of), fmt.Sprintf("%.1f", s.worst), outOf(s.words.Right, s.words.Of)}
}

// spacingOf holds the moves of a sheet to the two drawn. An ease that is not told is as
// wrong as it is long.
func spacingOf(d scene.Swinging, s *sheet.Sheet) (score spacingScore) {
	score.True = 2
	for _, b := range s.Beats {
		if b.Kind != sheet.KindMove || b.Figure != 0 {
			continue
		}
		score.Found++
		if score.Found > score.True || b.Texture == nil || b.Texture.Spacing == nil {
			continue
		}
		score.Matched++
		for _, e := range []struct {
			got  *float64
			want float64
		}{{b.Texture.Spacing.EaseIn, d.In}, {b.Texture.Spacing.EaseOut, d.Out}} {
			off := e.want
			if e.got != nil {
				off = math.Abs(*e.got - e.want)
			}
			score.eases.count(e.got != nil && off <= 1)
			score.worst = max(score.worst, off)
		}
		said := strings.Split(b.SpacingWords(), ", ")
		for _, words := range d.Words {
			score.words.count(slices.Contains(said, words))
		}
	}
	return score
}
