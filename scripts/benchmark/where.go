package main

import (
	"context"
	"io"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// A whereTable says of drawn clips how many things of one kind are found, and how
// near to their truth they are told.
type whereTable struct {
	title  string
	what   string // what is counted
	within string // what being near means
	worst  string
	clips  []whereClip
}

// A whereClip is a drawn clip, and how its sheet is held against its truth.
type whereClip struct {
	*scene.Scene
	score func(*sheet.Sheet) whereScore
}

// A whereScore is what is found in a clip.
type whereScore struct {
	Counts
	Within Share // of those matched, how many are near
	Worst  int   // by how many frames the worst is wrong
}

// add takes in what is found in another clip.
func (s *whereScore) add(o whereScore) {
	s.Counts.add(o.Counts)
	s.Within.add(o.Within)
	s.Worst = max(s.Worst, o.Worst)
}

// row is what is found under a name, for a table.
func (s *whereScore) row(name string) []any {
	return []any{name, s.True, s.missed(), s.extra(), outOf(s.Within.Right, s.Within.Of), s.Worst}
}

// match counts one that is found, off frames from where it is.
func (s *whereScore) match(off, near int) {
	s.Matched++
	s.Within.count(off <= near)
	s.Worst = max(s.Worst, off)
}

// render measures the clips and writes the table, with what they come to.
func (t *whereTable) render(ctx context.Context, w io.Writer) error {
	table := newTable(t.title, 1, "clip", t.what, "missed", "false", t.within, t.worst)
	var all whereScore
	for _, clip := range t.clips {
		s, err := sheetOf(ctx, clip.Scene)
		if err != nil {
			return err
		}
		score := clip.score(s)
		all.add(score)
		table.AppendRow(score.row(clip.Name))
	}
	table.AppendRow(all.row("all"))
	return render(w, table)
}
