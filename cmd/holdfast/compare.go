package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
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
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "as", Value: "table", Usage: "print it as `FORM`: " + compareFormNames()},
			&cli.StringFlag{Name: "out", Usage: "also write every form to a folder named after both in `DIR`"},
			&cli.BoolFlag{Name: "overwrite", DisableDefaultText: true, Usage: "let --out replace an older result"},
			&cli.StringFlag{Name: "fps", Usage: "count frames of clips at `RATE`; image sequences need it"},
			&cli.StringFlag{Name: "fail-on", Usage: "exit with 1 where the pass differs: `WHAT` is missing (something of the reference), fix, or look for anything"},
			&cli.BoolFlag{Name: "quiet", DisableDefaultText: true, Usage: "no progress, no warnings; with --out print nothing"},
		},
		Action: func(c *cli.Context) error {
			job, err := newCompareJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

// A compareForm is one way to write a comparison.
type compareForm struct {
	name   string
	suffix string
	write  func(c *compare.Comparison, w io.Writer, width int) error
}

var compareForms = []compareForm{
	{"table", ".txt", (*compare.Comparison).WriteTable},
	{"csv", ".csv", func(c *compare.Comparison, w io.Writer, _ int) error { return c.WriteCSV(w) }},
	{"json", ".json", func(c *compare.Comparison, w io.Writer, _ int) error { return c.WriteJSON(w) }},
	{"retime", ".retime.csv", func(c *compare.Comparison, w io.Writer, _ int) error { return c.WriteRetime(w) }},
}

func compareFormNames() string {
	var names []string
	for _, f := range compareForms {
		names = append(names, f.name)
	}
	return strings.Join(names, ", ") + " (the pass's frame for each of the reference)"
}

// A compareJob is one run of the compare command.
type compareJob struct {
	reference, pass string
	as              compareForm
	out             string
	overwrite       bool
	failOn          string
	take            taker
	stdout, stderr  io.Writer
}

// failMissing is what --fail-on calls beats, hops and cuts of the reference that
// the pass does not have.
const failMissing = "missing"

func newCompareJob(c *cli.Context) (*compareJob, error) {
	j := &compareJob{
		out: c.String("out"), overwrite: c.Bool("overwrite"), failOn: c.String("fail-on"),
		take:   taker{quiet: c.Bool("quiet"), stderr: c.App.ErrWriter},
		stdout: c.App.Writer, stderr: c.App.ErrWriter,
	}
	names, err := arguments(c, 2, 2, "a reference and a pass")
	if err != nil {
		return nil, err
	}
	j.reference, j.pass = names[0], names[1]
	i := slices.IndexFunc(compareForms, func(f compareForm) bool { return f.name == c.String("as") })
	if i < 0 {
		return nil, usage(fmt.Sprintf("--as %s: there is no such form", sheet.Visible(c.String("as"))), "the forms are "+compareFormNames())
	}
	j.as = compareForms[i]
	switch j.failOn {
	case failMissing, sheet.WeightFix, sheet.WeightLook, "":
	default:
		return nil, usage(fmt.Sprintf("--fail-on %s: there is no such thing", sheet.Visible(j.failOn)), "say missing, fix or look")
	}
	if c.IsSet("out") && j.out == "" {
		return nil, usage("--out: no folder given", "--out . writes here")
	}
	if j.overwrite && j.out == "" {
		return nil, usage("--overwrite goes with --out", "say where with --out DIR")
	}
	if c.IsSet("fps") {
		if j.take.fps, err = extract.ParseRate(c.String("fps")); err != nil {
			return nil, usage(fmt.Sprintf("--fps: %v", err), "write a rate such as 24, 23.976 or 30000/1001")
		}
	}
	return j, nil
}

func (j *compareJob) run(ctx context.Context) error {
	if j.out != "" {
		if err := whole.Vacant(j.folder(), j.ours()); err != nil {
			return err
		}
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
	if err := j.put(ctx, c); err != nil {
		return err
	}
	return j.fail(c)
}

// stem names the files of a comparison.
func (j *compareJob) stem() string {
	return fileStem(filepath.Base(j.pass)) + "-against-" + fileStem(filepath.Base(j.reference))
}

func (j *compareJob) folder() string { return filepath.Join(j.out, j.stem()) }

// ours reports whether a name is that of a file of this comparison; nil while
// what exists is to be kept.
func (j *compareJob) ours() func(name string) bool {
	if !j.overwrite {
		return nil
	}
	return func(name string) bool {
		return slices.ContainsFunc(compareForms, func(f compareForm) bool { return name == j.stem()+f.suffix })
	}
}

// put prints the comparison, and writes its files if they are wanted: they are
// ready before anything is printed and move to their place after.
func (j *compareJob) put(ctx context.Context, c *compare.Comparison) error {
	if j.out == "" {
		return j.print(c)
	}
	folder, err := whole.Begin(j.folder())
	if err != nil {
		return err
	}
	defer folder.Discard()
	for _, f := range compareForms {
		var text bytes.Buffer
		if err := f.write(c, &text, sheet.DefaultWidth); err != nil {
			return err
		}
		if err := folder.Write(j.stem()+f.suffix, text.Bytes()); err != nil {
			return err
		}
	}
	if !j.take.quiet {
		if err := j.print(c); err != nil {
			return err
		}
	}
	if err := folder.Commit(ctx, j.ours()); err != nil {
		return err
	}
	if !j.take.quiet {
		fmt.Fprintf(j.stderr, "holdfast: wrote %s\n", sheet.Visible(j.folder()))
	}
	return nil
}

func (j *compareJob) print(c *compare.Comparison) error {
	var text bytes.Buffer
	if err := j.as.write(c, &text, pageWidth(j.stdout)); err != nil {
		return err
	}
	if _, err := j.stdout.Write(text.Bytes()); err != nil {
		return &outputError{fmt.Errorf("standard output: %w", err)}
	}
	return nil
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
