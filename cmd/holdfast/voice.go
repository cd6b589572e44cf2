package main

import (
	"fmt"
	"io"
	"time"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

// A voice is how much a command says beside its result, and where to. Its zero
// value with a writer says what most people want.
type voice struct {
	quiet, verbose bool
	stderr         io.Writer
}

// voiceFlags are --quiet, which does what it says for this command, and
// --verbose.
func voiceFlags(quiet string) []cli.Flag {
	return []cli.Flag{
		&cli.BoolFlag{Name: "quiet", DisableDefaultText: true, Usage: quiet},
		&cli.BoolFlag{Name: "verbose", DisableDefaultText: true, Usage: "say on standard error what is read, at which size, and how long each step takes"},
	}
}

// readVoice understands them.
func readVoice(c *cli.Context) (voice, error) {
	v := voice{quiet: c.Bool("quiet"), verbose: c.Bool("verbose"), stderr: c.App.ErrWriter}
	if v.quiet && v.verbose {
		return v, usage("--quiet and --verbose say opposite things", "leave one of them out")
	}
	return v, nil
}

// say writes a line that people want to read unless they asked for quiet.
// Words from outside go through it made visible.
func (v voice) say(format string, args ...any) {
	if !v.quiet {
		fmt.Fprintf(v.stderr, "holdfast: %s\n", sheet.Visible(fmt.Sprintf(format, args...)))
	}
}

// detail writes a line for people who want to know what is going on.
func (v voice) detail(format string, args ...any) {
	if v.verbose {
		v.say(format, args...)
	}
}

// timed says, once the function it returns is called, how long something took.
func (v voice) timed(what string) (done func(more string)) {
	start := time.Now()
	return func(more string) { v.detail("%s took %.2f s%s", what, time.Since(start).Seconds(), more) }
}

// progress shows how far something is; frames is how many there will be, as far
// as known, 0 for not at all.
func (v voice) progress(what string, frames int64) *progress {
	return v.progressOf(what, "frames", frames)
}

// progressOf is the same of other things than frames.
func (v voice) progressOf(what, things string, number int64) *progress {
	if v.quiet {
		return &progress{}
	}
	return newProgress(v.stderr, what, things, number)
}
