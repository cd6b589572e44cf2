package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"
)

// optionsFirst puts what follows a command in the order that the flag parser
// wants, options before names, so that people may type them in any. What
// follows "--" is a name whatever it looks like.
func optionsFirst(app *cli.App, args []string) []string {
	if len(args) < 2 {
		return args
	}
	command := app.Command(args[1])
	if command == nil {
		return args
	}
	var options, names []string
	for rest := args[2:]; len(rest) > 0; rest = rest[1:] {
		switch a := rest[0]; {
		case a == "--":
			names = append(names, rest[1:]...)
			rest = rest[:1]
		case len(a) > 1 && a[0] == '-':
			options = append(options, a)
			if !wantsValue(command, a) {
				continue
			}
			if len(rest) == 1 { // the parser says that nothing follows it
				return slices.Concat(args[:2], options)
			}
			options, rest = append(options, rest[1]), rest[1:]
		default:
			names = append(names, a)
		}
	}
	return slices.Concat(args[:2], options, []string{"--"}, names)
}

// wantsValue reports whether what follows an option is its value.
func wantsValue(command *cli.Command, option string) bool {
	name := strings.TrimLeft(option, "-")
	for _, f := range command.Flags {
		if slices.Contains(f.Names(), name) {
			d, ok := f.(cli.DocGenerationFlag)
			return ok && d.TakesValue()
		}
	}
	return false
}
