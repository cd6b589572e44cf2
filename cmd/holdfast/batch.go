package main

import (
	"context"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/holdfast/internal/batch"
	"holdfast/extract"
	"holdfast/sheet"
	"holdfast/sheet/overview"
)

func batchCommand() *cli.Command {
	return &cli.Command{
		Name:      "batch",
		Usage:     "measure many clips, and put them into one overview",
		UsageText: "holdfast batch [OPTIONS] PATH... --out DIR",
		Description: "PATH is a clip, an image sequence, or a folder, which stands for all clips below it. Stopped\n" +
			"at any time, the same command goes on where it was; clips that are done are measured again\n" +
			"only when they, the options or the program have changed.",
		Flags: slices.Concat([]cli.Flag{
			&cli.StringFlag{Name: "out", Usage: "write the results of each clip to a folder of its own in `DIR`, and overview.html and overview.csv of all"},
			&cli.StringFlag{Name: "list", Usage: "measure the clips that `FILE` names too, one a line"},
			&cli.IntFlag{Name: "jobs", DefaultText: "by processors and memory", Usage: "measure `N` clips at a time"},
			&cli.StringFlag{Name: "share", Usage: "measure share `I/N` of the clips only, such as 3/40; array: that of this task of a Slurm job array; array/N: likewise, or of a Kubernetes indexed job, of N"},
			&cli.StringFlag{Name: "name", Usage: "tell shot and pass by a `PATTERN` of names, such as '{shot}_v{pass}'"},
			&cli.BoolFlag{Name: "watch", DisableDefaultText: true, Usage: "go on when all is done: measure what is new or has changed, once it no longer grows"},
			&cli.BoolFlag{Name: "no-pages", DisableDefaultText: true, Usage: "write no page of each clip"},
		}, batchSheetFlags(), []cli.Flag{
			&cli.BoolFlag{Name: "quiet", DisableDefaultText: true, Usage: "no progress; clips that fail are told all the same"},
			&cli.BoolFlag{Name: "verbose", DisableDefaultText: true, Usage: "say what came of each clip"},
		}),
		Action: func(c *cli.Context) error {
			job, err := newBatchJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

// batchSheetFlags are the options of the sheet command that a batch hands on.
func batchSheetFlags() []cli.Flag {
	return slices.Concat([]cli.Flag{
		&cli.StringFlag{Name: "fps", Usage: "count frames at `RATE`; the clips are conformed to it. Of an image sequence, that it was rendered at (24 unless said)"},
		&cli.IntFlag{Name: "first-frame", Value: 1, Usage: "call the first frame of each clip `N`"},
		&cli.Float64Flag{Name: "figure-height", Value: sheet.DefaultFigureHeight, Usage: "take figures to be `METRES` tall where hops are held against gravity"},
		houseFlag(),
	}, measuringFlags())
}

// A batchJob is one run of the batch command.
type batchJob struct {
	voice
	paths   []string
	out     string
	share   batch.Share
	jobs    int
	pattern *overview.Pattern // nil: to be guessed
	watch   bool
	options []string // of the sheet command
	decides []string // what else decides about results
}

// newBatchJob checks everything that can be checked without the clips.
func newBatchJob(c *cli.Context) (*batchJob, error) {
	j := &batchJob{paths: c.Args().Slice(), out: c.String("out"), jobs: c.Int("jobs"), watch: c.Bool("watch")}
	var err error
	if j.voice, err = readVoice(c); err != nil {
		return nil, err
	}
	if j.out == "" {
		return nil, usage("batch: no folder to write to", "say where with --out DIR")
	}
	if c.IsSet("jobs") && (j.jobs < 1 || j.jobs > mostJobs) {
		return nil, usage(fmt.Sprintf("--jobs %d is out of range", j.jobs), fmt.Sprintf("numbers go from 1 to %d", mostJobs))
	}
	if file := c.String("list"); file != "" {
		more, err := batch.ReadList(file)
		if err != nil {
			return nil, &extract.InputError{Name: extract.SafeName(file), Kind: extract.Missing}
		}
		j.paths = append(j.paths, more...)
	}
	if len(j.paths) == 0 {
		return nil, usage("batch: no clips given", "name clips or folders, or a list of them with --list FILE")
	}
	if err := j.readShare(c.String("share")); err != nil {
		return nil, err
	}
	if j.pattern, err = readNames(c); err != nil {
		return nil, err
	}
	return j, j.readOptions(c)
}

// mostJobs bounds how many clips are measured at a time.
const mostJobs = 1000

func (j *batchJob) readShare(text string) (err error) {
	of, indexed := strings.CutPrefix(text, "array/")
	switch {
	case text == "":
		return nil
	case j.watch:
		return usage("--watch and --share do not go together", "watch with the whole batch")
	case text == "array":
		j.share, err = batch.ArrayShare(os.Getenv)
	case indexed:
		j.share, err = batch.IndexShare(os.Getenv, of)
	default:
		j.share, err = batch.ParseShare(text)
	}
	if err != nil {
		return usage(fmt.Sprintf("--share: %v", err), "write I/N, or within a job array array, or array/N where its indices go from 0 to N-1")
	}
	return nil
}

// readOptions checks the options that are handed on, once for all clips, and keeps
// them in the order of their names.
func (j *batchJob) readOptions(c *cli.Context) error {
	if _, err := readTaker(c); err != nil {
		return err
	}
	if _, err := readFigureHeight(c); err != nil {
		return err
	}
	for _, flag := range batchSheetFlags() {
		name := flag.Names()[0]
		if !c.IsSet(name) {
			continue
		}
		switch flag.(type) {
		case *cli.BoolFlag:
			j.options = append(j.options, "--"+name)
		default:
			j.options = append(j.options, fmt.Sprintf("--%s=%v", name, c.Value(name)))
		}
	}
	if c.Bool("no-pages") {
		j.options = append(j.options, "--no-page")
	}
	slices.Sort(j.options)
	program, err := programStamp()
	if err != nil {
		return err
	}
	tools, err := extract.ToolStamp()
	if err != nil {
		return err
	}
	j.decides = []string{program, tools}
	if house := c.String("house"); house != "" {
		text, err := os.ReadFile(house)
		if err != nil {
			return err
		}
		j.decides = append(j.decides, string(text))
	}
	if j.jobs == 0 {
		j.jobs = batch.Jobs(careName(c))
	}
	return nil
}

// careName is which of the options of careFlags is set.
func careName(c *cli.Context) string {
	for _, name := range []string{"quick", "careful"} {
		if c.Bool(name) {
			return name
		}
	}
	return ""
}

// watchPause is how long a watched folder is left alone between two looks, and how
// long a clip must not have changed to be taken for finished.
const watchPause = 2 * time.Second

// run measures all clips; watching, again and again until it is told to stop.
func (j *batchJob) run(ctx context.Context) error {
	if j.watch {
		return j.keepWatch(ctx)
	}
	found, err := batch.Find(ctx, j.paths)
	if err != nil {
		return err
	}
	if len(found) == 0 {
		return &extract.InputError{Name: extract.SafeName(j.paths[0]), Kind: extract.NoMatch}
	}
	failed, err := j.measure(ctx, found)
	if err != nil || failed == 0 {
		return err
	}
	return &batchError{failed, j.share.Whole()}
}

// keepWatch measures what looks the same at two looks, has rested for long enough
// and looks otherwise than when it was measured last.
func (j *batchJob) keepWatch(ctx context.Context) error {
	j.say("watching; Ctrl-C ends it")
	var before, measured map[string]string
	for {
		found, err := batch.Find(ctx, j.paths)
		if err != nil {
			return err
		}
		now, settled := map[string]string{}, map[string]string{}
		for _, c := range found {
			now[c.Path] = looks(c.Path)
			if before[c.Path] == now[c.Path] && now[c.Path] != "" && batch.Rested(c.Path, time.Now()) {
				settled[c.Path] = now[c.Path]
			}
		}
		if before = now; !maps.Equal(settled, measured) {
			if _, err := j.measure(ctx, batch.Only(found, func(path string) bool { return settled[path] != "" })); err != nil {
				return err
			}
			measured = settled
		}
		select {
		case <-ctx.Done():
			return context.Cause(ctx)
		case <-time.After(watchPause):
		}
	}
}

// looks tells a growing clip from a finished one: its size and its time. Empty: it
// is not there. Of a sequence it is the time of its folder, which changes with
// every picture that comes.
func looks(path string) string {
	info, err := os.Stat(path)
	if err != nil {
		info, err = os.Stat(filepath.Dir(path))
	}
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%d %d", info.Size(), info.ModTime().UnixNano())
}

// A batchError says that some clips of a batch have no sheet.
type batchError struct {
	failed   int
	overview bool // there is one
}

func (e *batchError) Error() string { return batchClips(e.failed) + " without a sheet" }

// Hint says what to do about it.
func (e *batchError) Hint() string {
	if !e.overview {
		return "each is told above"
	}
	return "each is told above and in " + batch.OverviewPage
}

// tellFailure says in one line why a clip of a batch has no sheet.
func tellFailure(w io.Writer, path, why string) {
	fmt.Fprintf(w, "holdfast: %s\n", sheet.Visible(path+": "+why))
}

// batchClips is a number of clips in words.
func batchClips(n int) string {
	if n == 1 {
		return "1 clip"
	}
	return fmt.Sprintf("%d clips", n)
}

// measure measures what is not done of some clips, tells what failed and, where it
// is no share, sums all up. It returns how many have no sheet.
func (j *batchJob) measure(ctx context.Context, found []batch.Clip) (failed int, err error) {
	plan := batch.NewPlan("holdfast "+version, found, j.options, j.decides)
	program, err := os.Executable()
	if err != nil {
		return 0, err
	}
	run := &batch.Run{Program: program, Called: os.Args[0], Folder: j.out, Share: j.share, Jobs: j.jobs, Plan: plan}
	bar := j.progressOf("measuring", "clips", int64(run.Clips()))
	var failures []batch.Outcome
	done, earlier := 0, 0
	run.Told = func(o batch.Outcome) {
		bar.frame(done)
		done++
		if o.Earlier {
			earlier++
		}
		if o.Failed != nil {
			failures = append(failures, o)
		}
		j.detail("%s: %s", o.Path, o.Words())
	}
	err = run.Do(ctx)
	bar.done()
	if err != nil {
		return 0, err
	}
	j.say("%s, %d of them done before; results in %s", batchClips(done), earlier, j.out)
	slices.SortFunc(failures, func(a, b batch.Outcome) int { return strings.Compare(a.Path, b.Path) })
	for _, o := range failures {
		tellFailure(j.stderr, o.Path, o.Failed.Error)
	}
	if !j.share.Whole() {
		return len(failures), nil
	}
	return len(failures), writeOverview(j.out, plan, j.pattern, j.voice)
}
