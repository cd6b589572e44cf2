package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"github.com/urfave/cli/v2"

	"holdfast/cmd/assemble"
	"holdfast/cmd/holdfast/internal/batch"
	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
	"holdfast/motion"
	"holdfast/sheet"
)

func sheetCommand() *cli.Command {
	return &cli.Command{
		Name:      "sheet",
		Usage:     "measure a clip and print its beat sheet",
		UsageText: "holdfast sheet [OPTIONS] CLIP",
		Description: "CLIP is a video file, or an image sequence such as 'shot.%04d.png' or\n" +
			"'shot.[1001-1096].png' together with --fps. Options may stand before or after the clip, and --\n" +
			"before a name that starts with a dash.",
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "as", Value: "table", Usage: "print it as `FORM`: table, csv, json, notes (a CSV of them), vtt"},
			&cli.StringFlag{Name: "out", Usage: "also write every form, a page to look at in a browser, an exposure sheet to print, and pictures of the ground at the feet, to a folder named after the clip in `DIR`"},
			&cli.StringFlag{Name: "called", Usage: "name the folder and the files of --out `NAME`, not after the clip"},
			&cli.BoolFlag{Name: "no-page", DisableDefaultText: true, Usage: "leave the page out of --out, which takes most of its room"},
			&cli.StringFlag{Name: batch.RecordFlag, Hidden: true},
			&cli.BoolFlag{Name: "link-clip", DisableDefaultText: true, Usage: "let the page of --out play the clip from where it is instead of holding a small copy"},
			&cli.BoolFlag{Name: "charts", DisableDefaultText: true, Usage: "let --out also draw charts, as PNG and SVG: beats, motion, ground, the timing of moves, paths"},
			&cli.BoolFlag{Name: "overwrite", DisableDefaultText: true, Usage: "let --out replace an older result"},
			&cli.StringFlag{Name: "fps", Usage: "count frames at `RATE`, such as 24, 23.976 or 30000/1001; the clip is conformed to it"},
			&cli.IntFlag{Name: "first-frame", Value: 1, Usage: "call the clip's first frame `N`"},
			&cli.StringFlag{Name: "from", Usage: "measure from `FRAME` on, a frame number or a timecode such as 00:00:02:12"},
			&cli.StringFlag{Name: "to", Usage: "measure up to `FRAME`, that one included"},
			&cli.Float64Flag{Name: "figure-height", Value: sheet.DefaultFigureHeight, Usage: "take figures to be `METRES` tall where hops are held against gravity"},
			houseFlag(),
			remarksFlag(),
			failOnFlag(),
		}, slices.Concat(measuringFlags(), voiceFlags("no progress, no warnings; with --out print nothing"), soundFlags(), markFlags())...),
		Action: func(c *cli.Context) error {
			job, err := newSheetJob(c)
			if err != nil {
				return err
			}
			return job.run(c.Context)
		},
	}
}

// A sheetJob is one run of the sheet command.
type sheetJob struct {
	clip      string
	as        format
	out       string
	called    string // of the folder and the files in out
	noPage    bool
	record    string // what a batch wants to find again; empty: not in a batch
	poster    []byte // the clip at a glance, JPEG; nil: not known yet
	linkClip  bool   // the page plays the clip itself
	charts    bool
	overwrite bool
	from, to  string
	metres    float64 // a figure's height
	remarks   *remarkFile
	failOn    string // the lightest weight of a note that makes the run exit with 1
	marks     []mark
	sound     soundOptions
	taker     // how the clip is measured
	stdout    io.Writer
}

// newSheetJob checks everything that can be checked without the clip.
func newSheetJob(c *cli.Context) (*sheetJob, error) {
	j := &sheetJob{
		out: c.String("out"), called: c.String("called"), noPage: c.Bool("no-page"), record: c.String(batch.RecordFlag), linkClip: c.Bool("link-clip"), charts: c.Bool("charts"), overwrite: c.Bool("overwrite"),
		from: c.String("from"), to: c.String("to"),
		stdout: c.App.Writer,
	}
	var err error
	if j.taker, err = readTaker(c); err != nil {
		return nil, err
	}
	if j.clip, err = oneArgument(c, "clip"); err != nil {
		return nil, err
	}
	if j.as, err = formatNamed(c.String("as")); err != nil {
		return nil, err
	}
	if c.IsSet("out") && j.out == "" {
		return nil, usage("--out: no folder given", "--out . writes here")
	}
	for _, option := range []string{"overwrite", "link-clip", "called", "no-page", "charts"} {
		if c.IsSet(option) && j.out == "" {
			return nil, usage(fmt.Sprintf("--%s goes with --out", option), "say where with --out DIR")
		}
	}
	if j.noPage && j.linkClip {
		return nil, usage("--no-page and --link-clip say opposite things", "leave one of them out")
	}
	switch {
	case !c.IsSet("called"):
		j.called = whole.Stem(filepath.Base(j.clip))
	case whole.Stem(j.called+".") != j.called:
		return nil, usage(fmt.Sprintf("--called %s is no name for files", sheet.Visible(j.called)), "use letters, digits, hyphens and underscores")
	}
	if j.metres, err = readFigureHeight(c); err != nil {
		return nil, err
	}
	if j.remarks, err = readRemarks(c); err != nil {
		return nil, err
	}
	if j.failOn, err = readFailOn(c); err != nil {
		return nil, err
	}
	if j.marks, err = readMarks(c); err != nil {
		return nil, err
	}
	if j.sound, err = readSoundOptions(c); err != nil {
		return nil, err
	}
	if j.spanSet() {
		return j, j.setSpan(j.read.FPS)
	}
	return j, nil
}

// readFigureHeight understands --figure-height, metres.
func readFigureHeight(c *cli.Context) (float64, error) {
	metres := c.Float64("figure-height")
	if !(metres >= sheet.MinFigureHeight && metres <= sheet.MaxFigureHeight) {
		return 0, usage(fmt.Sprintf("--figure-height %g is out of range", metres),
			fmt.Sprintf("heights go from %g to %d metres", sheet.MinFigureHeight, sheet.MaxFigureHeight))
	}
	return metres, nil
}

// spanSet reports whether --from and --to are understood; a timecode first
// needs the rate.
func (j *sheetJob) spanSet() bool {
	return !j.read.FPS.IsZero() || !sheet.IsTimecode(j.from) && !sheet.IsTimecode(j.to)
}

// setSpan says which frames to read of a clip at a rate.
func (j *sheetJob) setSpan(rate extract.Rate) error {
	from, to, err := sheet.ParseSpan(j.from, j.to, sheet.Rate(rate), j.first)
	if err != nil {
		return usage(fmt.Sprintf("--from, --to: %v", err), "give frame numbers or timecodes of the clip")
	}
	j.read.From = from
	if to >= 0 {
		j.read.Count = to - from + 1
	}
	return nil
}

// run measures the clip and puts out its sheet.
func (j *sheetJob) run(ctx context.Context) error {
	if j.record != "" {
		var done func()
		ctx, done = batch.UntilParentEnds(ctx, os.Stdin)
		defer done()
	}
	if j.out != "" {
		if err := j.set().check(j.clip); err != nil {
			return err
		}
	}
	m, err := j.measure(ctx)
	if err != nil {
		return err
	}
	s := m.Sheet()
	if err := j.remarks.into(s); err != nil {
		return err
	}
	if err := j.put(ctx, s, m); err != nil {
		return err
	}
	return failOn(j.failOn, s)
}

func (j *sheetJob) set() set { return newSet(j.out, j.called, j.overwrite) }

// measure reads the clip and measures it.
func (j *sheetJob) measure(ctx context.Context) (*assemble.Measured, error) {
	if err := j.understandSpan(ctx); err != nil {
		return nil, err
	}
	m, key := j.recall(ctx)
	if m == nil {
		var err error
		if m, err = j.measureAnew(ctx); err != nil {
			return nil, err
		}
		j.keep(ctx, key, m)
	}
	if err := j.suits(m.Clip()); err != nil {
		return nil, err
	}
	m.Marks = markTexts(j.marks)
	m.Tool = sheet.Tool{Name: "holdfast", Version: version}
	m.FigureHeight, m.House = j.metres, j.house
	m.First, m.Skipped = j.first, int(j.read.From)
	return m, nil
}

// measureAnew reads the clip, from its first frame to its last.
func (j *sheetJob) measureAnew(ctx context.Context) (*assemble.Measured, error) {
	var m *assemble.Measured
	err := extract.Read(ctx, j.clip, j.read, func(r *extract.Reader) (err error) {
		m, err = j.measureFrames(ctx, r)
		return err
	})
	if err != nil {
		return nil, err
	}
	m.SHA256, err = extract.SHA256(ctx, j.clip)
	return m, err
}

// suits reports whether a clip is of the kind that the options ask for.
func (j *sheetJob) suits(clip extract.Clip) error {
	if j.linkClip && clip.Sequence {
		return usage("--link-clip: an image sequence cannot be played", "leave --link-clip out")
	}
	return nil
}

// understandSpan looks up the clip's rate where a timecode needs it.
func (j *sheetJob) understandSpan(ctx context.Context) error {
	if j.spanSet() {
		return nil
	}
	r, err := extract.Open(ctx, j.clip, j.read)
	if err != nil {
		return err
	}
	defer r.Close()
	return j.setSpan(r.Clip().Rate)
}

// measureFrames measures what a reader gives.
func (j *sheetJob) measureFrames(ctx context.Context, r *extract.Reader) (*assemble.Measured, error) {
	clip := r.Clip()
	if err := j.suits(clip); err != nil {
		return nil, err
	}
	j.describe(clip)
	bar := j.progress("measuring", j.expected(clip))
	defer bar.done()
	marks, err := marker{clip, j.first, j.read.From, j.read.Count}.place(j.marks)
	if err != nil {
		return nil, err
	}
	done := j.timed("measuring")
	result, err := motion.Measure(ctx, r, motion.Options{
		Size: clip.Work, Rate: clip.Rate.Float(), Marks: marks, Progress: bar.frame,
	})
	if err != nil {
		return nil, j.inFrames(err)
	}
	done(fmt.Sprintf(", %d frames", result.Frames))
	m := assemble.New(clip, result)
	m.Feet, m.Warnings = marks.Feet, append(r.Warnings(), careWarnings(j.read.WorkArea, clip)...)
	defer j.timed("listening")("")
	return m, j.hear(ctx, r, m, result.Frames)
}

// inFrames words a mark beyond the clip's end as a wrong command line.
func (j *sheetJob) inFrames(err error) error {
	var beyond *motion.MarkError
	if !errors.As(err, &beyond) {
		return err
	}
	first := j.first + int(j.read.From)
	return usage(fmt.Sprintf("a mark is on frame %d, after the last one measured, %d", first+beyond.Frame, first+beyond.Frames-1),
		"name a frame of the clip after @")
}

// expected returns how many frames there will be, going by what the container
// claims; 0 when nothing is known. Only progress may believe it.
func (j *sheetJob) expected(clip extract.Clip) int64 {
	n := clip.Claimed
	if clip.Conformed && clip.ClaimedDuration > 0 {
		n = int64(clip.ClaimedDuration.Seconds() * clip.Rate.Float())
	}
	if n -= j.read.From; j.read.Count > 0 && j.read.Count < n {
		n = j.read.Count
	}
	return max(n, 0)
}

// put prints the sheet, and writes the set if one is wanted. The set is ready
// before anything is printed and moves to its place after, so that a failure
// of either leaves no file.
func (j *sheetJob) put(ctx context.Context, s *sheet.Sheet, m *assemble.Measured) error {
	if j.out == "" {
		return j.print(ctx, s)
	}
	files := j.set()
	folder, err := whole.Begin(files.folder)
	if err != nil {
		return err
	}
	defer folder.Discard()
	if err := files.fill(ctx, folder, s, m.Strips()); err != nil {
		return err
	}
	if !j.noPage {
		if err := j.writePage(ctx, folder, s, m); err != nil {
			return err
		}
	}
	if j.record != "" {
		if err := j.writeRecord(ctx, folder, s); err != nil {
			return err
		}
	}
	if j.charts {
		if err := j.writeCharts(ctx, folder, s, m); err != nil {
			return err
		}
	}
	if err := j.print(ctx, s); err != nil {
		return err
	}
	if err := folder.Commit(ctx, files.ours()); err != nil {
		return err
	}
	j.say("wrote %s", files.folder)
	return nil
}

// print writes the wanted form to standard output, and warnings to the error
// stream where that form does not show them.
func (j *sheetJob) print(ctx context.Context, s *sheet.Sheet) error {
	if j.quiet && j.out != "" {
		return nil
	}
	screen := screenOf(j.stdout)
	text, err := j.as.render(s, screen.width)
	if err != nil {
		return err
	}
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	if err := printText(j.stdout, screen.dress(text, j.as.name)); err != nil {
		return err
	}
	if j.quiet || j.as.showsWarnings {
		return nil
	}
	for _, w := range s.Clip.Warnings {
		j.say("warning: %s", w)
	}
	return nil
}

// describe says what a clip is and how it is read, for those who ask.
func (j *sheetJob) describe(clip extract.Clip) {
	how := fmt.Sprintf("%s: %d × %d pixels at %s fps", clip.Name, clip.Width, clip.Height, sheet.Rate(clip.Rate).Words())
	if clip.Conformed {
		how += fmt.Sprintf(" (made at %s)", sheet.Rate(clip.SourceRate).Words())
	}
	j.detail("%s, measured at %d × %d", how, clip.Work.X, clip.Work.Y)
}
