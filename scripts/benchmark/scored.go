package main

import (
	"context"
	"io"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// A scoring is what is found in a clip, or in all of them.
type scoring[S any] interface {
	*S
	add(S)
	row(name string) []any
}

// A scored clip is a drawn one, and how its sheet is held against its truth.
type scored[S any] struct {
	*scene.Scene
	score func(*sheet.Sheet) S
}

// renderScores measures clips and writes a table of what is found in each, and of what
// they come to.
func renderScores[S any, P scoring[S]](ctx context.Context, w io.Writer, title string, columns []string, clips []scored[S]) error {
	table := newTable(title, 1, append([]string{"clip"}, columns...)...)
	var all S
	for _, clip := range clips {
		s, err := sheetOf(ctx, clip.Scene)
		if err != nil {
			return err
		}
		score := clip.score(s)
		P(&all).add(score)
		table.AppendRow(P(&score).row(clip.Name))
	}
	table.AppendRow(P(&all).row("all"))
	return render(w, table)
}
