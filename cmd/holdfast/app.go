package main

import (
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

// newApp builds the command line. The library would print help to standard
// output on a usage error and exit by itself on others; both are turned off,
// so that standard output holds results only and run makes the exit code.
func newApp(stdout, stderr io.Writer) *cli.App {
	app := &cli.App{
		Name:                      "holdfast",
		Usage:                     "beat sheets of filmed references and animated shots",
		UsageText:                 "holdfast COMMAND [OPTIONS] ...",
		Version:                   version,
		HideVersion:               true, // its -v is easily taken for "verbose"
		Writer:                    stdout,
		ErrWriter:                 stderr,
		CustomAppHelpTemplate:     cli.AppHelpTemplate + exitHelp(),
		OnUsageError:              onUsageError,
		ExitErrHandler:            func(*cli.Context, error) {},
		DisableSliceFlagSeparator: true,
		Action:                    noCommand,
		Flags:                     []cli.Flag{&cli.BoolFlag{Name: "version", Usage: "print the version", DisableDefaultText: true}},
		Commands:                  []*cli.Command{sheetCommand(), batchCommand(), gatherCommand(), compareCommand(), followCommand(), markupCommand(), stillsCommand(), rulesCommand(), demoCommand(), licencesCommand(), manualCommand(), completionCommand(), versionCommand()},
	}
	for _, c := range app.Commands {
		c.OnUsageError = onUsageError
		c.HideHelpCommand = true // "help" after a command is a clip's name
		c.CustomHelpTemplate = cli.CommandHelpTemplate + exitHelp()
	}
	return app
}

func versionCommand() *cli.Command {
	return &cli.Command{
		Name:  "version",
		Usage: "print the version",
		Action: func(c *cli.Context) error {
			if err := noArguments(c, "holdfast version"); err != nil {
				return err
			}
			return printVersion(c)
		},
	}
}

func printVersion(c *cli.Context) error {
	return printText(c.App.Writer, []byte("holdfast "+version+"\n"))
}

// printText writes a result to standard output.
func printText(stdout io.Writer, text []byte) error {
	if _, err := stdout.Write(text); err != nil {
		return &outputError{fmt.Errorf("standard output: %w", err)}
	}
	return nil
}

// noCommand answers a command line without a known command.
func noCommand(c *cli.Context) error {
	const hint = "holdfast sheet CLIP measures a clip; holdfast --help lists the commands"
	switch {
	case c.Args().Present():
		return usage(fmt.Sprintf("no command is called %q", sheet.Visible(c.Args().First())), hint)
	case c.Bool("version"):
		return printVersion(c)
	}
	return usage("no command given", hint)
}

// A usageError is a wrong command line.
type usageError struct{ text, hint string }

func (e *usageError) Error() string { return e.text }

// Hint says what to do about it.
func (e *usageError) Hint() string { return e.hint }

func usage(text, hint string) error { return &usageError{text, hint} }

// onUsageError puts the flag parser's complaints into our words.
func onUsageError(c *cli.Context, err error, _ bool) error {
	name := "holdfast"
	if c.Command != nil && c.Command.Name != "" && c.Command.Name != name {
		name += " " + c.Command.Name
	}
	// The parser writes every option with one dash.
	text := err.Error()
	if unknown, ok := strings.CutPrefix(text, "flag provided but not defined: -"); ok {
		text = "there is no option --" + unknown
	}
	if bare, ok := strings.CutPrefix(text, "flag needs an argument: -"); ok {
		text = "nothing follows --" + bare
	}
	if m := badValue.FindStringSubmatch(text); m != nil {
		text = fmt.Sprintf("--%s: %s is no value for it", m[2], m[1])
	}
	return usage(text, name+" --help lists the options")
}

// badValue is how the flag parser words a value that an option does not take.
var badValue = regexp.MustCompile(`^invalid (?:boolean )?value (".*") for (?:flag )?-([a-z-]+): `)

// inOurWords makes a wrong command line of what the library says by itself.
func inOurWords(err error) error {
	if err == nil {
		return nil
	}
	if topic, ok := strings.CutPrefix(err.Error(), "No help topic for "); ok {
		return usage("there is no help on "+topic, "holdfast --help lists the commands")
	}
	return err
}

// noArguments refuses arguments of a command that takes none.
func noArguments(c *cli.Context, hint string) error {
	if c.Args().Present() {
		return usage(c.Command.Name+" takes nothing", hint)
	}
	return nil
}

// oneArgument returns the only argument of a command.
func oneArgument(c *cli.Context, what string) (string, error) {
	args := c.Args().Slice()
	switch {
	case len(args) == 0 || args[0] == "":
		return "", usage(fmt.Sprintf("%s: no %s given", c.Command.Name, what), "holdfast "+c.Command.Name+" --help")
	case len(args) == 1:
		return args[0], nil
	}
	return "", usage(fmt.Sprintf("%s: takes one %s, not %d", c.Command.Name, what, len(args)),
		"quote names that hold spaces; name the pictures of a sequence by one pattern, such as 'shot.%04d.png'")
}

// arguments returns the names a command is given, at least and at most so many.
func arguments(c *cli.Context, least, most int, what string) ([]string, error) {
	args := c.Args().Slice()
	if len(args) < least || len(args) > most || slices.Contains(args, "") {
		return nil, usage(fmt.Sprintf("%s takes %s", c.Command.Name, what), "holdfast "+c.Command.Name+" --help")
	}
	return args, nil
}
