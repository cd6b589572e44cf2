package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

// shells are those whose completion can be printed. The scripts hold all words
// themselves: asking the program at every key would make people wait for it.
var shells = []struct {
	name, use string
	script    func(app *cli.App) string
}{
	{"bash", "source <(holdfast completion bash)", bashCompletion},
	{"zsh", "source <(holdfast completion zsh)", zshCompletion},
	{"fish", "holdfast completion fish | source", fishCompletion},
}

// shellNames are their names: the scripts list them too, so that they cannot be
// read off the list above.
var shellNames = []string{"bash", "zsh", "fish"}

func completionCommand() *cli.Command {
	return &cli.Command{
		Name:      "completion",
		Usage:     "print a script that completes commands and options in a shell",
		UsageText: "holdfast completion SHELL",
		Description: "SHELL is bash, zsh or fish. Put into what your shell reads as it starts:\n" +
			shells[0].use + ", the same with zsh, or " + shells[2].use + ".",
		Action: printCompletion,
	}
}

func printCompletion(c *cli.Context) error {
	name, err := oneArgument(c, "shell")
	if err != nil {
		return err
	}
	for _, s := range shells {
		if s.name == name {
			return printText(c.App.Writer, []byte("# Completion for "+s.name+", made by holdfast "+version+": "+s.use+"\n"+s.script(c.App)))
		}
	}
	return usage(fmt.Sprintf("completion: no script for %s", sheet.Visible(name)), "the shells are "+strings.Join(shellNames, ", "))
}

// choices are the words an option's value is one of; none where it is free.
func choices(command string, o option) []string {
	switch {
	case o.takes == "FORM" && command == "sheet":
		var names []string
		for _, f := range formats {
			names = append(names, f.name)
		}
		return names
	case o.takes == "FORM" && command == "compare":
		return strings.Split(formNames(compareForms), ", ")
	case o.takes == "FORM" && command == "follow":
		return strings.Split(formNames(followForms), ", ")
	case o.takes == "FORM" && command == "rules":
		return []string{tableForm, "json", "toml"}
	case o.name == "fail-on" && command == "compare":
		return []string{failMissing, sheet.WeightFix, sheet.WeightLook}
	case o.name == "fail-on":
		return []string{sheet.WeightFix, sheet.WeightLook}
	}
	return nil
}

// commandWords returns the names of commands, and "help".
func commandWords(commands []described) []string {
	var names []string
	for _, c := range commands {
		names = append(names, c.name)
	}
	return append(names, "help")
}

// operands are the words that may follow a command; none where these are files.
func operands(c described, all []described) []string {
	switch c.name {
	case "completion":
		return shellNames
	case "help":
		return commandWords(all)
	}
	return nil
}

const bashHead = `_holdfast() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]} words=
    COMPREPLY=()
    if [[ $word == = ]]; then
        word=
    elif [[ $before == = ]]; then
        before=${COMP_WORDS[COMP_CWORD-2]}
    fi
    case "$COMP_CWORD $command $before" in
`

const bashTail = `        *)
            if [[ $word == -* ]]; then
                case $command in
%s                esac
            fi ;;
    esac
    if [[ $words == */ ]]; then
        compopt -o filenames 2>/dev/null
        mapfile -t COMPREPLY < <(compgen -d -- "$word")
    else
        mapfile -t COMPREPLY < <(compgen -W "$words" -- "$word")
    fi
}
complete -o bashdefault -o default -F _holdfast holdfast
`

func bashCompletion(app *cli.App) string {
	commands := describe(app)
	var b, options strings.Builder
	b.WriteString(bashHead)
	line := func(pattern string, words []string) {
		fmt.Fprintf(&b, "        %s) words='%s' ;;\n", pattern, strings.Join(words, " "))
	}
	line("1\\ *", commandWords(commands))
	line("2\\ help\\ *", commandWords(commands))
	for _, c := range commands {
		if o := operands(c, commands); o != nil {
			line("2\\ "+c.name+"\\ *", o)
		}
		names := []string{"--help"}
		for _, o := range c.options {
			names = append(names, "--"+o.name)
			switch pattern := `*\ ` + c.name + `\ --` + o.name; {
			case choices(c.name, o) != nil:
				line(pattern, choices(c.name, o))
			case o.takes == "DIR":
				line(pattern, []string{"/"})
			case o.takes != "":
				line(pattern, nil)
			}
		}
		fmt.Fprintf(&options, "                    %s) words='%s' ;;\n", c.name, strings.Join(names, " "))
	}
	fmt.Fprintf(&b, bashTail, options.String())
	return b.String()
}

// zshText is words inside a single-quoted specification of _arguments.
var zshText = strings.NewReplacer(`'`, `'\''`, `[`, `\[`, `]`, `\]`, `:`, `\:`, `\`, `\\`)

func zshCompletion(app *cli.App) string {
	commands := describe(app)
	var b strings.Builder
	b.WriteString("_holdfast() {\n    local -a commands\n    commands=(\n")
	for _, c := range commands {
		fmt.Fprintf(&b, "        '%s:%s'\n", c.name, zshText.Replace(c.usage))
	}
	b.WriteString("        'help:show what a command takes'\n    )\n")
	b.WriteString("    if (( CURRENT == 2 )); then\n        _describe command commands\n        return\n    fi\n")
	b.WriteString("    local command=$words[2]\n    shift words\n    (( CURRENT-- ))\n    case $command in\n")
	for _, c := range append(commands, described{name: "help"}) {
		fmt.Fprintf(&b, "        %s)\n            _arguments", c.name)
		for _, o := range c.options {
			fmt.Fprintf(&b, " \\\n                %s", zshOption(c.name, o))
		}
		rest := "'*:file:_files'"
		if o := operands(c, commands); o != nil {
			rest = "'1:word:(" + strings.Join(o, " ") + ")'"
		}
		fmt.Fprintf(&b, " \\\n                '--help[show what it takes]' \\\n                %s ;;\n", rest)
	}
	b.WriteString("    esac\n}\ncompdef _holdfast holdfast\n")
	return b.String()
}

// zshOption is the specification of one option: it may be given again where it
// takes a value.
func zshOption(command string, o option) string {
	if o.takes == "" {
		return fmt.Sprintf("'--%s[%s]'", o.name, zshText.Replace(o.usage))
	}
	action := "_files"
	switch words := choices(command, o); {
	case words != nil:
		action = "(" + strings.Join(words, " ") + ")"
	case o.takes == "DIR":
		action = "_files -/"
	case !takesFile(o):
		action = " "
	}
	return fmt.Sprintf("'*--%s=[%s]:%s:%s'", o.name, zshText.Replace(o.usage), zshText.Replace(o.takes), action)
}

// takesFile reports whether an option's value is the name of a file.
func takesFile(o option) bool { return slices.Contains([]string{"FILE", "OUT.mp4"}, o.takes) }

var fishText = strings.NewReplacer(`\`, `\\`, `'`, `\'`)

func fishCompletion(app *cli.App) string {
	commands := describe(app)
	var b strings.Builder
	all := strings.Join(commandWords(commands), " ")
	first := "not __fish_seen_subcommand_from " + all
	for _, c := range append(commands, described{name: "help", usage: "show what a command takes"}) {
		fmt.Fprintf(&b, "complete -c holdfast -n '%s' -f -a %s -d '%s'\n", first, c.name, fishText.Replace(c.usage))
	}
	for _, c := range append(commands, described{name: "help"}) {
		within := "__fish_seen_subcommand_from " + c.name
		if o := operands(c, commands); o != nil {
			fmt.Fprintf(&b, "complete -c holdfast -n '%s' -f -a '%s'\n", within, strings.Join(o, " "))
		}
		for _, o := range c.options {
			value := ""
			switch words := choices(c.name, o); {
			case words != nil:
				value = " -x -a '" + strings.Join(words, " ") + "'"
			case o.takes == "DIR":
				value = " -x -a '(__fish_complete_directories)'"
			case takesFile(o):
				value = " -r"
			case o.takes != "":
				value = " -x"
			}
			fmt.Fprintf(&b, "complete -c holdfast -n '%s' -l %s%s -d '%s'\n", within, o.name, value, fishText.Replace(o.usage))
		}
	}
	return b.String()
}
