package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"math"

	"holdfast/motion"
	"holdfast/motion/parts"
	"holdfast/motion/scene"
	"holdfast/motion/twins"
)

// measureParts scores looks and twins of drawn clips in which the parts are shown, poses
// and the spacing of moves.
func measureParts(ctx context.Context, size image.Point, stdout io.Writer) error {
	if err := scoreDarts(ctx, size, stdout); err != nil {
		return err
	}
	if err := scoreTwins(ctx, size, stdout); err != nil {
		return err
	}
	if err := scorePoses(ctx, size, stdout); err != nil {
		return err
	}
	return scoreSpacing(ctx, size, stdout)
}

// measureShown measures a scene with marks on some parts of a figure.
func measureShown(ctx context.Context, sc *scene.Scene, figure string, frames []int, names ...string) (*motion.Result, error) {
	var marks []parts.Mark
	for _, n := range frames {
		for _, name := range names {
			b, ok := sc.MarkBox(figure, name, n)
			if !ok {
				return nil, fmt.Errorf("%s: there is no %s", sc.Name, name)
			}
			marks = append(marks, parts.Mark{Name: name, Frame: n, Box: parts.Box{X: b.X0, Y: b.Y0, W: b.X1 - b.X0, H: b.Y1 - b.Y0}})
		}
	}
	p := ofScene(sc)
	return motion.Measure(ctx, &reel{picture: &p}, motion.Options{Size: p.size, Rate: p.rate.Float(), Marks: motion.Marks{Parts: marks}})
}

// scoreDarts says how many looks are found within a frame, with their ways.
func scoreDarts(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Darts(size)
	if err != nil {
		return err
	}
	t := newTable("LOOKS: drawn heads and eyes, within 1 frame", 1, "clip", "looks", "missed", "false", "turns told", "F1")
	var all Counts
	for _, d := range list {
		r, err := measureShown(ctx, d.Scene, d.Figure, []int{0}, d.Part)
		if err != nil {
			return err
		}
		c, turns := scoreLooks(d, r.Parts[0])
		all.add(c)
		t.AppendRow([]any{d.Name, c.True, c.missed(), c.extra(), outOf(turns.Right, turns.Of), share(c.F1())})
	}
	t.AppendRow([]any{"all", all.True, all.missed(), all.extra(), "", share(all.F1())})
	return render(w, t)
}

// scoreLooks matches looks one to one with those drawn.
func scoreLooks(d scene.Darting, p motion.Part) (c Counts, turns Share) {
	c = Counts{True: len(d.Darts), Found: len(p.Looks)}
	taken := make([]bool, len(p.Looks))
	for _, want := range d.Darts {
		for i, l := range p.Looks {
			if !taken[i] && l.Way == want.Way && max(l.Start-want.Start, want.Start-l.Start, l.End-want.End, want.End-l.End) <= 1 {
				taken[i] = true
				c.Matched++
				turns.count(want.Big == (l.Kind == "turn"))
				break
			}
		}
	}
	return c, turns
}

// scoreTwins says how many moves of twins are found and by how much their offsets are
// wrong.
func scoreTwins(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Twins(size)
	if err != nil {
		return err
	}
	t := newTable("TWINS: drawn arms some frames apart", 1, "clip", "moves", "missed", "false", "offset within 1", "worst offset")
	var all Counts
	var near Share
	for _, d := range list {
		r, err := measureShown(ctx, d.Scene, d.Figure, d.Shown, d.First, d.Second)
		if err != nil {
			return err
		}
		c, within, worst := scoreOffsets(d, r.Twins)
		all.add(c)
		near.add(within)
		t.AppendRow([]any{d.Name, c.True, c.missed(), c.extra(), outOf(within.Right, within.Of), fmt.Sprintf("%.2f", worst)})
	}
	t.AppendRow([]any{"all", all.True, all.missed(), all.extra(), outOf(near.Right, near.Of), ""})
	if err := render(w, t); err != nil {
		return err
	}
	return scoreHalves(ctx, list, w)
}

// scoreHalves says the same of the halves of the figures, with nothing shown. Arms that
// go parallel lie on one side of them: any twins of these are false.
func scoreHalves(ctx context.Context, list []scene.Twinning, w io.Writer) error {
	t := newTable("HALVES: the same arms with nothing shown", 1, "clip", "moves", "missed", "false", "offset within 1", "worst offset")
	var all Counts
	var near Share
	for _, d := range list {
		r, err := measureShown(ctx, d.Scene, d.Figure, nil)
		if err != nil {
			return err
		}
		if !d.Mirrored {
			d.Moves = nil
		}
		c, within, worst := scoreOffsets(d, r.Twins)
		all.add(c)
		near.add(within)
		t.AppendRow([]any{d.Name, c.True, c.missed(), c.extra(), outOf(within.Right, within.Of), fmt.Sprintf("%.2f", worst)})
	}
	t.AppendRow([]any{"all", all.True, all.missed(), all.extra(), outOf(near.Right, near.Of), ""})
	return render(w, t)
}

// scoreOffsets matches twins with the moves drawn: most of each is common, the same
// way.
func scoreOffsets(d scene.Twinning, found []motion.Twin) (c Counts, within Share, worst float64) {
	c = Counts{True: len(d.Moves), Found: len(found)}
	for _, m := range d.Moves {
		for _, f := range found {
			common := min(m[1], f.End) - max(m[0], f.Start) + 1
			if 2*common < m[1]-m[0]+1 || d.Mirrored != (f.Way == twins.Mirrored) {
				continue
			}
			c.Matched++
			off := math.Abs(f.Offset - float64(d.Offset))
			within.count(off <= 1)
			worst = max(worst, off)
			break
		}
	}
	return c, within, worst
}
