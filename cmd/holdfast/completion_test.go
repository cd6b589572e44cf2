package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func completionFor(t *testing.T, shell string) string {
	t.Helper()
	code, script, stderr := runFor("completion", shell)
	if code != exitDone || stderr != "" {
		t.Fatalf("%s: exit %d, said %q", shell, code, stderr)
	}
	return script
}

// shellOrSkip returns the path of a shell.
func shellOrSkip(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed", name)
	}
	return path
}

// A real bash completes command lines by the script; the last word is the one
// being typed.
func TestBashCompletes(t *testing.T) {
	bash, script := shellOrSkip(t, "bash"), completionFor(t, "bash")
	dir := t.TempDir()
	for _, d := range []string{"shots", "shots two"} {
		if err := os.Mkdir(filepath.Join(dir, d), 0o777); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ typed, want []string }{
		{[]string{"com"}, []string{"compare", "completion"}},
		{[]string{"sheet", "--as", ""}, []string{"csv", "json", "notes", "table", "vtt"}},
		{[]string{"sheet", "--as", "=", "j"}, []string{"json"}},
		{[]string{"sheet", "--as", "="}, []string{"csv", "json", "notes", "table", "vtt"}},
		{[]string{"sheet", "clip.mp4", "--fi"}, []string{"--figure", "--figure-height", "--first-frame"}},
		{[]string{"compare", "--fail-on", ""}, []string{"fix", "look", "missing"}},
		{[]string{"stills", "--out", "sho"}, []string{"shots", "shots two"}},
		{[]string{"completion", ""}, []string{"bash", "fish", "zsh"}},
		{[]string{"help", "ru"}, []string{"rules"}},
		{[]string{"sheet", "wal"}, nil}, // left to the shell, which knows files
		{[]string{"sheet", "--house", ""}, nil},
		{[]string{"nonsense", "--"}, nil},
	} {
		cmd := exec.Command(bash, append([]string{"--norc", "-c",
			script + `COMP_WORDS=(holdfast "$@"); COMP_CWORD=$#; _holdfast; printf '%s\n' "${COMPREPLY[@]}"`, "bash"}, c.typed...)...)
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%q: %v: %s", c.typed, err, out)
		}
		got := strings.FieldsFunc(string(out), func(r rune) bool { return r == '\n' })
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("%q: %q, want %q", c.typed, got, c.want)
		}
	}
}

// fish itself says what it would offer.
func TestFishCompletes(t *testing.T) {
	fish, script := shellOrSkip(t, "fish"), completionFor(t, "fish")
	for line, want := range map[string][]string{
		"holdfast com":            {"compare", "completion"},
		"holdfast sheet --as ":    {"csv", "json", "notes", "table", "vtt"},
		"holdfast sheet --figur":  {"--figure", "--figure-height"},
		"holdfast completion ":    {"bash", "fish", "zsh"},
		"holdfast rules --as=tom": {"--as=toml"},
	} {
		cmd := exec.Command(fish, "--no-config", "-c", script+"complete -C "+"'"+line+"'")
		cmd.Dir = t.TempDir()
		cmd.Env = append(os.Environ(), "HOME="+cmd.Dir)
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%q: %v: %s", line, err, out)
		}
		var got []string
		for _, l := range strings.Split(strings.TrimSpace(string(out)), "\n") {
			word, _, _ := strings.Cut(l, "\t")
			got = append(got, word)
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", line, got, want)
		}
	}
}

// zsh at least takes the script and what it says of every command's options.
func TestZshTakesTheScript(t *testing.T) {
	zsh, script := shellOrSkip(t, "zsh"), completionFor(t, "zsh")
	var commands []string
	for _, c := range describe(newApp(io.Discard, io.Discard)) {
		commands = append(commands, c.name)
	}
	// The builtin that reads the specifications works inside completion only; what it
	// would be given is shown instead.
	check := "autoload -Uz compinit && compinit -u -D\n" + script +
		"_arguments() { print -rl -- \"$@\" }\nfor c in " + strings.Join(commands, " ") + "; do words=(holdfast $c ''); CURRENT=3; _holdfast; done\n"
	out, err := exec.Command(zsh, "-f", "-c", check).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, want := range []string{
		`*--as=[print it as FORM\: table, csv, json, notes (a CSV of them), vtt]:FORM:(table csv json notes vtt)`,
		`--quiet[no progress, and nothing said]`, `*--remarks=[put a reviewer's own words`, `1:word:(bash zsh fish)`,
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("%q is missing in\n%s", want, out)
		}
	}
}

func TestShellNames(t *testing.T) {
	var names []string
	for _, s := range shells {
		names = append(names, s.name)
	}
	if !slices.Equal(names, shellNames) {
		t.Errorf("scripts for %q, names %q", names, shellNames)
	}
}
