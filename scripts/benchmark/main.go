// Command benchmark measures how right and how fast holdfast is, on scenes
// whose truth is known because they are drawn. It judges nothing: it prints.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"image"
	"io"
	"os"
	"os/signal"
	"syscall"
)

const usage = `usage: scripts/bench [accuracy|compare|figures|parts|sound|speed|many] [options]

Without a word all are run but many.

accuracy: every drawn scene clean at 640x360 and 320x180, and every third one
under each further condition; every solid scene clean at 640x360, and every
eighth one under each further condition. With any of --scene, --variant and
--size: all pairs of what these leave.
  --set SET           drawn: flat figures; solid: solid figures that move as the
                      people recorded in ../shared/mocap; all (where those
                      recordings are: all, else drawn)
  --full              all pairs, and clean at 1280x720 and 1920x1080
  --scene PATTERNS    such as walk*,hops
  --variant PATTERNS  such as clean,crf30
  --size SIZES        such as 640x360,1920x1080
  --care CARE         measure as with --quick or --careful: quick, careful; which is
                      told from the usual way by clips larger than 640x360
  --faults N          list at most N faults, 0 for all (60)
  --json FILE         write every clip's numbers there

compare: pairs of drawn clips with known edits, measured and lined up.
  --size SIZE         such as 640x360

figures: two drawn figures of whom one answers the other, one that is lively and
quiet by turns, and figures that come, walk up to each other, part and go.
  --size SIZE         such as 640x360

parts: looks of drawn heads and eyes, and drawn arms that are twins, all shown; poses
that drawn figures strike, and how arms ease in and out.
  --size SIZE         such as 640x360

sound: accents of drawn voices, and of texts that eSpeak NG speaks where it is
installed, against the vowels that were spoken.

speed: the program on a drawn clip against ffmpeg only decoding and scaling it.
  --size SIZES        such as 640x360 (640x360,1920x1080,3840x2160)
  --runs N            runs of each, in turns (5)
  --frames N          frames of each clip (240)
  --program FILE      what to run (bin/holdfast)
  --care CARE         with --quick or --careful: quick, careful

many: 200 small clips with the batch command, killed on the way, and some of them
one at a time. It takes some minutes.
  --program FILE      what to run (bin/holdfast)
`

// A command is a command line understood.
type command struct {
	accuracy, compare, figures, parts, sound, speed, many bool
	plan                                                  plan
	faults                                                int
	json                                                  string
	set                                                   string
	timing                                                timing
}

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, stdout, stderr io.Writer) int {
	c, err := parse(args)
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(stdout, usage)
		return 0
	}
	if err != nil {
		fmt.Fprintf(stderr, "bench: %v\n%s", err, usage)
		return 2
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if c.accuracy && err == nil {
		err = accuracy(ctx, c, stdout, stderr)
	}
	if c.compare && err == nil {
		err = comparePairs(ctx, c.pairSize(), stdout, stderr)
	}
	if c.figures && err == nil {
		err = scoreReactions(ctx, c.pairSize(), stdout)
	}
	if c.figures && err == nil {
		err = scoreTurnings(ctx, c.pairSize(), stdout)
	}
	if c.figures && err == nil {
		err = scoreStaging(ctx, c.pairSize(), stdout)
	}
	if c.parts && err == nil {
		err = measureParts(ctx, c.pairSize(), stdout)
	}
	if c.sound && err == nil {
		err = heardOnsets(stdout)
	}
	if c.speed && err == nil {
		err = speed(ctx, &c.timing, stdout, stderr)
	}
	if c.many && err == nil {
		err = many(ctx, c.timing.program, stdout, stderr)
	}
	switch {
	case ctx.Err() != nil:
		return 130
	case err != nil:
		fmt.Fprintf(stderr, "bench: %v\n", err)
		return 1
	}
	return 0
}

// parse reads the command line.
func parse(args []string) (*command, error) {
	c := &command{}
	switch {
	case len(args) > 0 && args[0] == "accuracy":
		c.accuracy, args = true, args[1:]
	case len(args) > 0 && args[0] == "compare":
		c.compare, args = true, args[1:]
	case len(args) > 0 && args[0] == "figures":
		c.figures, args = true, args[1:]
	case len(args) > 0 && args[0] == "parts":
		c.parts, args = true, args[1:]
	case len(args) > 0 && args[0] == "sound":
		c.sound, args = true, args[1:]
	case len(args) > 0 && args[0] == "speed":
		c.speed, args = true, args[1:]
	case len(args) > 0 && args[0] == "many":
		c.many, args = true, args[1:]
	default:
		c.accuracy, c.compare, c.figures, c.parts, c.sound, c.speed = true, true, true, true, true, true
	}
	var scenes, variants, sizes string
	f := flag.NewFlagSet("bench", flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.StringVar(&sizes, "size", "", "")
	if c.accuracy || c.speed {
		f.StringVar((*string)(&c.plan.care), "care", "", "")
	}
	if c.accuracy {
		f.BoolVar(&c.plan.full, "full", false, "")
		f.StringVar(&scenes, "scene", "", "")
		f.StringVar(&variants, "variant", "", "")
		f.IntVar(&c.faults, "faults", 60, "")
		f.StringVar(&c.set, "set", "", "")
		f.StringVar(&c.json, "json", "", "")
	}
	if c.speed {
		f.IntVar(&c.timing.runs, "runs", 5, "")
		f.IntVar(&c.timing.frames, "frames", 240, "")
	}
	if c.speed || c.many {
		f.StringVar(&c.timing.program, "program", "bin/holdfast", "")
	}
	if err := f.Parse(args); err != nil {
		return nil, err
	}
	if f.NArg() > 0 {
		return nil, fmt.Errorf("%q is none of accuracy, compare, figures, parts, sound, speed and many, or comes too late", f.Arg(0))
	}
	return c, c.fill(scenes, variants, sizes)
}

func (c *command) fill(scenes, variants, sizes string) (err error) {
	if c.plan.scenes, err = parsePatterns(scenes); err != nil {
		return err
	}
	if c.plan.variants, err = parsePatterns(variants); err != nil {
		return err
	}
	if c.plan.sizes, err = parseSizes(sizes); err != nil {
		return err
	}
	c.timing.sizes = c.plan.sizes
	if err := c.plan.care.check(); err != nil {
		return err
	}
	c.timing.care = c.plan.care
	if c.speed && (c.timing.runs < 1 || c.timing.frames < 2) {
		return errors.New("speed takes at least 1 run and 2 frames")
	}
	if c.faults < 0 {
		return errors.New("--faults is below 0")
	}
	return nil
}

// pairSize is the size at which pairs are drawn: the first that is asked for.
func (c *command) pairSize() image.Point {
	if len(c.plan.sizes) > 0 {
		return c.plan.sizes[0]
	}
	return mainSize
}
