package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"runtime"

	"golang.org/x/sync/errgroup"

	"holdfast/extract"
	"holdfast/motion/flow"
	"holdfast/motion/scene"
	"holdfast/sheet"
	"holdfast/sheet/compare"
)

// A contest is a pair of clips whose differences are known, both measured.
type contest struct {
	scene.Pair
	result *compare.Comparison
}

// The passages by lot that are compared beside the fixed ones: others than those
// of the tests.
const (
	lotSeed     = 73
	lotPassages = 4
)

// comparePairs draws and measures pairs with known edits, compares them and
// prints which edits were named with the right frames.
func comparePairs(ctx context.Context, size image.Point, stdout, stderr io.Writer) error {
	pairs, err := scene.Pairs(size)
	if err != nil {
		return err
	}
	byLot, err := scene.RandomPairs(lotSeed, lotPassages, size)
	if err != nil {
		return err
	}
	flow.SetThreads(1)
	for _, list := range []struct {
		what  string
		pairs []scene.Pair
	}{{"drawn pairs", pairs}, {"pairs by lot", byLot}} {
		if err := compareAll(ctx, list.what, list.pairs, stdout, stderr); err != nil {
			return err
		}
	}
	return compareDirections(ctx, size, stdout)
}

// compareAll measures and compares pairs, and their references with each other.
func compareAll(ctx context.Context, what string, pairs []scene.Pair, stdout, stderr io.Writer) error {
	sheets, err := measurePairs(ctx, pairs, stderr)
	if err != nil {
		return err
	}
	var contests []contest
	for _, p := range pairs {
		contests = append(contests, contest{p, compare.New(sheets[p.Reference.Name], sheets[p.Pass.Name], sheet.Tool{})})
	}
	if err := reportPairs(stdout, what, contests); err != nil {
		return err
	}
	return reportStrangers(stdout, contests, sheets)
}

// measurePairs returns the sheet of each clip by its name.
func measurePairs(ctx context.Context, pairs []scene.Pair, stderr io.Writer) (map[string]*sheet.Sheet, error) {
	var scenes []*scene.Scene
	seen := map[string]bool{}
	for _, p := range pairs {
		for _, sc := range []*scene.Scene{p.Reference, p.Pass} {
			if !seen[sc.Name] {
				seen[sc.Name] = true
				scenes = append(scenes, sc)
			}
		}
	}
	measured := make([]*sheet.Sheet, len(scenes))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.NumCPU())
	shown := newCounter(stderr, len(scenes))
	defer shown.clear()
	for i, sc := range scenes {
		g.Go(func() error {
			if err := context.Cause(ctx); err != nil {
				return err
			}
			p := ofScene(sc)
			t := &trial{truth: p.Truth()}
			err := t.measure(ctx, &reel{picture: &p}, extract.Clip{
				Name: p.name, Width: p.size.X, Height: p.size.Y, Work: p.size, Rate: extract.Rate(p.rate),
			})
			measured[i] = t.sheet
			shown.step()
			return err
		})
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	sheets := map[string]*sheet.Sheet{}
	for i, sc := range scenes {
		sheets[sc.Name] = measured[i]
	}
	return sheets, nil
}

// editKinds are the differences that name edits.
var editKinds = map[string]string{
	compare.HoldMissing: scene.EditMissing, compare.HoldExtra: scene.EditExtra, compare.HoldShorter: scene.EditShorter,
	compare.HoldLonger: scene.EditLonger, compare.HoldsSwapped: scene.EditSwapped,
}

// edits counts which edits of a contest were named, within a frame.
func (c contest) edits() Counts {
	n := Counts{True: len(c.Edits), Found: len(c.result.Differences)}
	named := make([]bool, len(c.Edits))
	for _, d := range c.result.Differences {
		for i, e := range c.Edits {
			if !named[i] && editKinds[d.Kind] == e.Kind && spans(d.Reference, e.RefStart, e.RefEnd) && spans(d.Pass, e.PassStart, e.PassEnd) {
				named[i] = true
				n.Matched++
				break
			}
		}
	}
	return n
}

// spans reports whether a span is the true one within a frame; a side without
// one has -1.
func spans(s *compare.Span, start, end int) bool {
	if s == nil || start < 0 {
		return s == nil && start < 0
	}
	return max(s.Start-start, start-s.Start, s.End-end, end-s.End) <= 1
}

// wholeRight reports whether speed and offset are those drawn.
func (c contest) wholeRight() bool {
	off := c.result.Offset - c.Offset
	speed := c.result.Speed / c.Speed
	return c.result.Related && max(off, -off) <= 2 && speed > 0.985 && speed < 1.015
}

func reportPairs(w io.Writer, what string, contests []contest) error {
	t := newTable("COMPARE: "+what+" with known edits, within 1 frame", 1, "pair", "likeness", "speed", "offset", "named", "missed", "false")
	var all Counts
	right := 0
	for _, c := range contests {
		e := c.edits()
		all.add(e)
		whole := "wrong"
		if c.wholeRight() {
			right++
			whole = fmt.Sprintf("%.3f", c.result.Speed)
		}
		t.AppendRow([]any{c.Name, fmt.Sprintf("%.2f", c.result.Likeness), whole, c.result.Offset, e.Matched, e.missed(), e.extra()})
	}
	if err := render(w, t); err != nil {
		return err
	}
	for _, c := range contests {
		if e := c.edits(); e.missed()+e.extra() > 0 || !c.wholeRight() {
			fmt.Fprintf(w, "%s: want %+v, speed %.2f, offset %d\n", c.Name, c.Edits, c.Speed, c.Offset)
			for _, s := range c.result.Summary {
				fmt.Fprintf(w, "    %s\n", s)
			}
		}
	}
	_, err := fmt.Fprintf(w, "\nedits F1 %.3f; speed and offset right in %d of %d pairs\n\n", all.F1(), right, len(contests))
	return err
}

// reportStrangers compares passages that have nothing to do with each other.
func reportStrangers(w io.Writer, contests []contest, sheets map[string]*sheet.Sheet) error {
	var names []string
	seen := map[string]bool{}
	for _, c := range contests {
		if !seen[c.Reference.Name] {
			seen[c.Reference.Name] = true
			names = append(names, c.Reference.Name)
		}
	}
	for _, a := range names {
		for _, b := range names {
			if a != b {
				c := compare.New(sheets[a], sheets[b], sheet.Tool{})
				fmt.Fprintf(w, "%s against %s: likeness %.2f, related %v\n", a, b, c.Likeness, c.Related)
			}
		}
	}
	return nil
}
