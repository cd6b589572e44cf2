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
)

func compareCommand() *cli.Command {
	return &cli.Command{
		Name:      "compare",
		Usage:     "line a pass up with its reference and say what differs",
		UsageText: "holdfast compare [OPTIONS] REFERENCE PASS",
		Description: "REFERENCE and PASS are clips, or sheets made with --as json (files that end in\n" +
			".json), in any mix. Lengths and offsets are in frames of the pass.",
		Flags: append(documentFlags(formNames(compareForms)+" (the pass's frame for each of the reference)"),
			&cli.StringFlag{Name: "video", Usage: "also write both clips side by side to `OUT.mp4`, in step beat by beat, with frame numbers and beats drawn in"},
			&cli.BoolFlag{Name: "by-time", DisableDefaultText: true, Usage: "let the clips of --video run from their first frames on, each at its own speed"},
			&cli.StringFlag{Name: "fail-on", Usage: "exit with 1 where the pass differs: `WHAT` is missing (something of the reference), fix, or look for anything"}),
		Action: func(c *cli.Context) error {
			job, err := newCompareJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

var compareForms = []form[*compare.Comparison]{
	{"table", ".txt", (*compare.Comparison).WriteTable},
	{"csv", ".csv", func(c *compare.Comparison, w io.Writer, _ int) error { return c.WriteCSV(w) }},
	{"json", ".json", func(c *compare.Comparison, w io.Writer, _ int) error { return c.WriteJSON(w) }},
	{"retime", ".retime.csv", func(c *compare.Comparison, w io.Writer, _ int) error { return c.WriteRetime(w) }},
}

// A compareJob is one run of the compare command.
type compareJob struct {
	*document[*compare.Comparison]
	reference, pass string
	failOn          string
	video           *sideBySide // nil: none
}

// failMissing is what --fail-on calls beats, hops and cuts of the reference that
// the pass does not have.
const failMissing = "missing"

func newCompareJob(c *cli.Context) (*compareJob, error) {
	names, err := arguments(c, 2, 2, "a reference and a pass")
	if err != nil {
		return nil, err
	}
	j := &compareJob{reference: names[0], pass: names[1], failOn: c.String("fail-on")}
	switch j.failOn {
	case failMissing, sheet.WeightFix, sheet.WeightLook, "":
	default:
		return nil, usage(fmt.Sprintf("--fail-on %s: there is no such thing", sheet.Visible(j.failOn)), "say missing, fix or look")
	}
	if j.video, err = newSideBySide(c, j.reference, j.pass); err != nil {
		return nil, err
	}
	j.document, err = newDocument(c, compareForms)
	return j, err
}

func (j *compareJob) run(ctx context.Context) error {
	if err := j.vacant(j.stem()); err != nil {
		return err
	}
	reference, err := j.take.take(ctx, j.reference)
	if err != nil {
		return err
	}
	pass, err := j.take.take(ctx, j.pass)
	if err != nil {
		return err
	}
	c := compare.New(reference, pass, sheet.Tool{Name: "holdfast", Version: version})
	if err := j.video.write(ctx, c, reference, pass); err != nil {
		return err
	}
	j.page = func(ctx context.Context, folder *whole.Folder) error {
		return writePair(ctx, folder, j.stem(), &pair{
			take: j.take, before: j.reference, pass: j.pass,
			page: &page.Page{Sheet: pass, Beside: &page.Beside{Called: "reference", Sheet: reference, Comparison: c}},
		})
	}
	if err := j.put(ctx, j.stem(), c); err != nil {
		return err
	}
	return j.fail(c)
}

// stem names the files of a comparison.
func (j *compareJob) stem() string {
	return whole.Stem(filepath.Base(j.pass)) + "-against-" + whole.Stem(filepath.Base(j.reference))
}

// fail reports what --fail-on asks about as a *foundError. Clips that are not
// related fail in any case: nothing of the reference is in the pass.
func (j *compareJob) fail(c *compare.Comparison) error {
	if j.failOn == "" {
		return nil
	}
	name := sheet.Visible(c.Pass.Name)
	if !c.Related {
		return &foundError{name + ": not the acting of the reference"}
	}
	missing, fix, all := 0, 0, len(c.Differences)
	for _, d := range c.Differences {
		if d.Pass == nil {
			missing++
		}
		if d.Weight == sheet.WeightFix {
			fix++
		}
	}
	n := map[string]int{failMissing: missing, sheet.WeightFix: fix, sheet.WeightLook: all}[j.failOn]
	if n == 0 {
		return nil
	}
	what := map[string]string{failMissing: "missing", sheet.WeightFix: "to fix", sheet.WeightLook: "worth a look"}[j.failOn]
	return &foundError{fmt.Sprintf("%s: differences found: %d %s", name, n, what)}
}
