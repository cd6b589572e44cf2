package main

import (
	"context"
	"image"
	"io"
	"math"
	"slices"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

const (
	// stagingEach is how many clips of each kind are drawn.
	stagingEach = 2
	// passageReach is how far off a passage may be told and be that one, frames: less
	// than between two that figures have at one side.
	passageReach = 12
	// passageNear and approachNear are how far off frames may be and be near.
	passageNear, approachNear = 1, 3
	// changeNear is how far off the change of a gap may be, as a share of it.
	changeNear = 0.1
)

// scoreStaging says which way drawn figures are told to come and go, and where they are
// told to walk up to each other and part.
func scoreStaging(ctx context.Context, size image.Point, w io.Writer) error {
	list, err := scene.Stagings(size, stagingEach)
	if err != nil {
		return err
	}
	passages := newTable("COMING AND GOING: drawn figures that enter and leave", 1,
		"clip", "passages", "missed", "false", "within 1", "worst")
	approaches := newTable("APPROACH AND RETREAT: drawn figures that walk up to each other and part", 1,
		"clip", "gaps", "missed", "false", "ends within 3", "worst", "change within 10 %", "who told")
	var allPassages whereScore
	var allApproaches approachScore
	for _, sc := range list {
		truth := sc.Truth()
		s, err := sheetOf(ctx, sc)
		if err != nil {
			return err
		}
		p, a := scorePassages(&truth, s), scoreApproaches(&truth, s)
		allPassages.add(p)
		allApproaches.add(a)
		passages.AppendRow(p.row(sc.Name))
		approaches.AppendRow(a.row(sc.Name))
	}
	passages.AppendRow(allPassages.row("all"))
	approaches.AppendRow(allApproaches.row("all"))
	if err := render(w, passages); err != nil {
		return err
	}
	return render(w, approaches)
}

// A way is one over an edge of the picture.
type way struct {
	in    bool
	side  string
	frame int // the outermost on which the figure is seen
}

// scorePassages matches passages one to one with those drawn, by their sides and, among
// those, their frames.
func scorePassages(truth *scene.Truth, s *sheet.Sheet) (score whereScore) {
	var want, found []way
	for _, f := range truth.Figures {
		if f.Enters.Side != "" {
			want = append(want, way{true, f.Enters.Side, f.Enters.Start})
		}
		if f.Leaves.Side != "" {
			want = append(want, way{false, f.Leaves.Side, f.Leaves.End})
		}
	}
	for _, f := range s.Figures {
		if p := f.Enters; p != nil && p.Side != sheet.SideNone {
			found = append(found, way{true, p.Side, p.Start})
		}
		if p := f.Leaves; p != nil && p.Side != sheet.SideNone {
			found = append(found, way{false, p.Side, p.End})
		}
	}
	score.Counts = Counts{True: len(want), Found: len(found)}
	for i, j := range match(len(want), len(found), func(i, j int) bool {
		a, b := want[i], found[j]
		return a.in == b.in && a.side == b.side && abs(a.frame-b.frame) <= passageReach
	}) {
		if j >= 0 {
			score.match(abs(want[i].frame-found[j].frame), passageNear)
		}
	}
	return score
}

// An approachScore is what is found of the gaps in a clip that shrink and grow.
type approachScore struct {
	whereScore
	change, who Share
}

func (s *approachScore) add(o approachScore) {
	s.whereScore.add(o.whereScore)
	s.change.add(o.change)
	s.who.add(o.who)
}

func (s *approachScore) row(name string) []any {
	return append(s.whereScore.row(name), outOf(s.change.Right, s.change.Of), outOf(s.who.Right, s.who.Of))
}

// scoreApproaches matches gaps that shrink or grow with those drawn, by their frames.
func scoreApproaches(truth *scene.Truth, s *sheet.Sheet) (score approachScore) {
	want, found := truth.Approaches, s.Approaches
	score.Counts = Counts{True: len(want), Found: len(found)}
	for i, j := range match(len(want), len(found), func(i, j int) bool {
		a, b := want[i], found[j]
		common := min(a.End, b.End) - max(a.Start, b.Start)
		return a.Change*b.Change > 0 && 2*common > max(a.End-a.Start, b.End-b.Start)
	}) {
		if j < 0 {
			continue
		}
		a, b := want[i], found[j]
		score.Matched++
		for _, off := range []int{abs(a.Start - b.Start), abs(a.End - b.End)} {
			score.Within.count(off <= approachNear)
			score.Worst = max(score.Worst, off)
		}
		score.change.count(math.Abs(b.Change/a.Change-1) <= changeNear)
		score.who.count(whoMoves(a) == len(b.By))
	}
	return score
}

// whoMoves is how many figures have at least a fifth of a change.
func whoMoves(a scene.Approach) int {
	return len(slices.DeleteFunc(slices.Clone(a.By[:]), func(by float64) bool { return by/a.Change < 0.2 }))
}
