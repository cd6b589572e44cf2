package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/cmd/page"
	"holdfast/sheet"
	"holdfast/sheet/compare"
	"holdfast/sheet/follow"
)

// mostPasses bounds how many passes are followed at once.
const mostPasses = 100

func followCommand() *cli.Command {
	return &cli.Command{
		Name:      "follow",
		Usage:     "follow notes from pass to pass: fixed, still there, better, worse, new",
		UsageText: "holdfast follow [OPTIONS] OLD NEW [NEWER...]",
		Description: "Each pass is a clip, or a sheet made with --as json (a file that ends in .json), in\n" +
			"any mix; the oldest comes first. Notes are held against each other beat by beat,\n" +
			"so that a retimed pass keeps its notes.",
		Flags: append(documentFlags(formNames(followForms)), failOnFlag()),
		Action: func(c *cli.Context) error {
			job, err := newFollowJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

var followForms = []form[*follow.History]{
	{"table", ".txt", (*follow.History).WriteTable},
	{"csv", ".csv", func(h *follow.History, w io.Writer, _ int) error { return h.WriteCSV(w) }},
	{"json", ".json", func(h *follow.History, w io.Writer, _ int) error { return h.WriteJSON(w) }},
}

// A followJob is one run of the follow command.
type followJob struct {
	*document[*follow.History]
	passes []string
	failOn string
}

func newFollowJob(c *cli.Context) (*followJob, error) {
	names, err := arguments(c, 2, mostPasses, fmt.Sprintf("two passes or more, up to %d, the oldest first", mostPasses))
	if err != nil {
		return nil, err
	}
	j := &followJob{passes: names}
	if j.failOn, err = readFailOn(c); err != nil {
		return nil, err
	}
	j.document, err = newDocument(c, followForms)
	return j, err
}

func (j *followJob) run(ctx context.Context) error {
	stem := whole.Stem(filepath.Base(j.passes[len(j.passes)-1])) + "-followed"
	if err := j.vacant(stem); err != nil {
		return err
	}
	var sheets []*sheet.Sheet
	for _, p := range j.passes {
		s, err := j.take.take(ctx, p)
		if err != nil {
			return err
		}
		sheets = append(sheets, s)
	}
	h := follow.Passes(sheets, sheet.Tool{Name: "holdfast", Version: version})
	j.page = func(ctx context.Context, folder *whole.Folder) error {
		return j.writePage(ctx, folder, stem, sheets, h)
	}
	if err := j.put(ctx, stem, h); err != nil {
		return err
	}
	return failOn(j.failOn, sheets[len(sheets)-1])
}

// writePage writes the page of the last pass with the one before it beside it, and
// with the notes and remarks of all passes.
func (j *followJob) writePage(ctx context.Context, folder *whole.Folder, stem string, sheets []*sheet.Sheet, h *follow.History) error {
	last := len(sheets) - 1
	before, pass := sheets[last-1], *sheets[last]
	pass.Remarks = nil
	for _, r := range h.Remarks {
		first, end := pass.Clip.FirstFrame, pass.Clip.Last()
		start := min(max(r.Start, first), end)
		pass.Remarks = append(pass.Remarks, sheet.Remark{Start: start, End: min(max(r.End, start), end), Text: r.Text})
	}
	return writePair(ctx, folder, stem, &pair{
		take: j.take, before: j.passes[last-1], pass: j.passes[last],
		page: &page.Page{Sheet: &pass, Follow: h, Beside: &page.Beside{
			Called: "pass before", Sheet: before, Comparison: compare.New(before, &pass, h.Tool),
		}},
	})
}
