package main

import (
	"context"
	"fmt"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/assemble"
	"holdfast/extract"
	"holdfast/sheet"
)

// numbers gets the sheet of a clip that pictures are to be made of: it measures
// the clip, or reads what was measured before.
type numbers struct {
	file    string // a sheet; empty: measure
	remarks *remarkFile
	take    taker
}

// readNumbers understands --sheet and the options that take its place.
func readNumbers(c *cli.Context) (n numbers, err error) {
	n.file = c.String("sheet")
	if n.take, err = readTaker(c); err != nil {
		return n, err
	}
	for _, option := range []string{"fps", "first-frame", "house", "quick", "careful"} {
		if n.file != "" && c.IsSet(option) {
			return n, usage(fmt.Sprintf("--%s goes with measuring, not with --sheet", option), "leave one of them out")
		}
	}
	n.remarks, err = readRemarks(c)
	return n, err
}

// of returns the sheet of a clip.
func (n numbers) of(ctx context.Context, clip string) (*sheet.Sheet, error) {
	s, _, err := n.withBoxes(ctx, clip)
	return s, err
}

// withBoxes returns the sheet of a clip and where its figures are, which sheets that
// were made before do not say.
func (n numbers) withBoxes(ctx context.Context, clip string) (*sheet.Sheet, []assemble.FigureBoxes, error) {
	s, boxes, err := n.read(ctx, clip)
	if err != nil {
		return nil, nil, err
	}
	return s, boxes, n.remarks.into(s)
}

func (n numbers) read(ctx context.Context, clip string) (*sheet.Sheet, []assemble.FigureBoxes, error) {
	if n.file == "" {
		return n.take.measureBoxes(ctx, clip)
	}
	s, err := readSheet(n.file)
	if err != nil {
		return nil, nil, err
	}
	sum, err := extract.SHA256(ctx, clip)
	if err != nil {
		return nil, nil, err
	}
	if sum != s.Clip.SHA256 {
		return nil, nil, usage(fmt.Sprintf("--sheet %s was made of another clip than %s", sheet.Visible(n.file), extract.SafeName(clip)),
			"leave --sheet out: the clip is measured then")
	}
	return s, nil, nil
}
