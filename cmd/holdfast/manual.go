package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// A described command is what its definition says of it.
type described struct {
	name, usage, synopsis, text string
	options                     []option
}

// An option is what its definition says of it. takes names its value, empty
// where it takes none; preset is its value where nothing is said, empty for none.
type option struct {
	name, takes, usage, preset string
}

// describe reads the definitions of all commands.
func describe(app *cli.App) []described {
	var list []described
	for _, c := range app.Commands {
		if c.Hidden || c.Name == "help" {
			continue
		}
		d := described{name: c.Name, usage: c.Usage, synopsis: c.UsageText, text: c.Description}
		if d.synopsis == "" {
			d.synopsis = app.Name + " " + c.Name
		}
		for _, f := range c.Flags {
			if o, ok := describeOption(f); ok {
				d.options = append(d.options, o)
			}
		}
		list = append(list, d)
	}
	return list
}

// describeOption reads a flag's definition. The word in back quotes names the
// value, as in the help.
func describeOption(f cli.Flag) (option, bool) {
	doc, ok := f.(cli.DocGenerationFlag)
	if !ok || slices.Contains(f.Names(), "help") {
		return option{}, false
	}
	o := option{name: f.Names()[0], usage: doc.GetUsage()}
	if doc.TakesValue() {
		o.takes = "VALUE"
		if before, rest, ok := strings.Cut(o.usage, "`"); ok {
			if word, after, ok := strings.Cut(rest, "`"); ok {
				o.takes, o.usage = word, before+word+after
			}
		}
		o.preset = strings.Trim(doc.GetDefaultText(), `"`)
	}
	return o, true
}

// exitMeanings are the exit codes in words, as help and manual list them.
var exitMeanings = []struct{ code, means string }{
	{"0", "done"},
	{"1", "done, and what --fail-on asks about was found"},
	{"2", "the command line is wrong"},
	{"3", "the input cannot be used"},
	{"4", "ffmpeg is missing or too old"},
	{"5", "decoding failed, or a limit was hit"},
	{"6", "the output could not be written"},
	{"7", "done, but some clips of a batch have no sheet"},
	{"129, 130, 143", "interrupted"},
}

// exitHelp is the end of every help text.
func exitHelp() string {
	var b strings.Builder
	b.WriteString("\nEXIT CODES:\n")
	for _, e := range exitMeanings {
		fmt.Fprintf(&b, "   %-16s%s\n", e.code, e.means)
	}
	return b.String()
}

// environment is what the manual says of variables.
var environment = []struct{ name, means string }{
	{cacheVariable, "The folder in which what was measured is kept for the next run. Where it is empty that is holdfast in $XDG_CACHE_HOME, or in ~/.cache."},
	{"LC_ALL, LC_CTYPE, LANG", "The first that is not empty decides: where it names no UTF-8, tables and progress are plain ASCII. So they are on a terminal if none is set."},
	{"NO_COLOR", "Set to anything, it keeps colour off the terminal. Colour only repeats what words say."},
	{"TERM", "A terminal called dumb gets plain ASCII and no colour."},
}

// manual is the manual page, in the man macros of roff.
func manual(app *cli.App) string {
	var r roff
	r.macro("TH", strings.ToUpper(app.Name), "1", "", app.Name+" "+app.Version, "User Commands")
	r.macro("SH", "NAME")
	r.text(app.Name + " - " + app.Usage)
	commands := describe(app)
	r.macro("SH", "SYNOPSIS")
	for i, c := range commands {
		if i > 0 {
			r.macro("br")
		}
		r.text(c.synopsis)
	}
	r.macro("SH", "DESCRIPTION")
	r.text(aboutProgram)
	r.macro("SH", "COMMANDS")
	for _, c := range commands {
		r.command(c)
	}
	r.macro("SH", "EXIT STATUS")
	for _, e := range exitMeanings {
		r.item(e.code, e.means)
	}
	r.macro("SH", "ENVIRONMENT")
	for _, e := range environment {
		r.item(e.name, e.means)
	}
	return r.String()
}

const aboutProgram = "Measures a clip, a filmed reference or a preview render of an animated shot, and writes its beat sheet: " +
	"the frame numbers of shots, holds, moves and their peaks, of what stands on the ground, slides and hops, and notes on what a reviewer would look at. " +
	"Results go to standard output, everything else to standard error. " +
	"Options may stand before or after names; -- comes before a name that starts with a dash."

// roff is text in the man macros. Words never become requests: what roff reads
// in a special way is escaped.
type roff struct{ strings.Builder }

var roffEscapes = strings.NewReplacer(`\`, `\e`, `-`, `\-`, `'`, `\(aq`, "`", "\\(ga", "^", `\(ha`, "~", `\(ti`)

func (r *roff) macro(name string, args ...string) {
	r.WriteString("." + name)
	for _, a := range args {
		r.WriteString(` "` + strings.ReplaceAll(roffEscapes.Replace(a), `"`, `\(dq`) + `"`)
	}
	r.WriteString("\n")
}

// text writes a paragraph's words; a line that starts like a request does not.
func (r *roff) text(words string) {
	for _, line := range strings.Split(words, "\n") {
		line = roffEscapes.Replace(line)
		if strings.HasPrefix(line, ".") {
			line = `\&` + line
		}
		r.WriteString(line + "\n")
	}
}

// item writes a term and what it means.
func (r *roff) item(term, means string) {
	r.macro("TP")
	r.WriteString(`\fB` + roffEscapes.Replace(term) + `\fR` + "\n")
	r.text(means)
}

func (r *roff) command(c described) {
	r.macro("SS", c.synopsis)
	r.text(capitalSentence(c.usage))
	if c.text != "" {
		r.text(c.text)
	}
	for _, o := range c.options {
		r.macro("TP")
		r.WriteString(`\fB\-\-` + roffEscapes.Replace(o.name) + `\fR`)
		if o.takes != "" {
			r.WriteString(` \fI` + roffEscapes.Replace(o.takes) + `\fR`)
		}
		r.WriteString("\n")
		means := capitalSentence(o.usage)
		if o.preset != "" {
			means += " Without it: " + o.preset + "."
		}
		r.text(means)
	}
}

// capitalSentence makes a sentence of what help says of something.
func capitalSentence(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:] + "."
}

func manualCommand() *cli.Command {
	return &cli.Command{
		Name:        "manual",
		Usage:       "print the manual page",
		UsageText:   "holdfast manual",
		Description: "In the form that man reads: holdfast manual > holdfast.1, then man -l holdfast.1.",
		Action: func(c *cli.Context) error {
			if err := noArguments(c, "holdfast manual > holdfast.1"); err != nil {
				return err
			}
			return printText(c.App.Writer, []byte(manual(c.App)))
		},
	}
}
