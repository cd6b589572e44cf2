package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// runFor runs a command line in this process.
func runFor(args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = run(append([]string{"holdfast"}, args...), &out, &errs)
	return code, out.String(), errs.String()
}

// twoLines reports whether text is one error line and one hint.
func twoLines(text string) bool {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	return len(lines) == 2 && strings.HasPrefix(lines[0], "holdfast: ") && strings.HasPrefix(lines[1], "hint: ")
}

func TestWrongCommandLines(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{nil, "no command"},
		{[]string{"shet", "clip.mp4"}, `no command is called "shet"`},
		{[]string{"--loud"}, "no option --loud"},
		{[]string{"-v"}, "no option"},
		{[]string{"help", "shet"}, "there is no help on 'shet'"},
		{[]string{"version", "now"}, "version takes nothing"},
		{[]string{"sheet"}, "no clip given"},
		{[]string{"sheet", ""}, "no clip given"},
		{[]string{"sheet", "--loud", "clip.mp4"}, "no option --loud"},
		{[]string{"sheet", "-v", "clip.mp4"}, "no option"},
		{[]string{"sheet", "clip.mp4", "--as", "pdf"}, "--as pdf"},
		{[]string{"sheet", "clip.mp4", "--as"}, "nothing follows --as"},
		{[]string{"sheet", "clip.mp4", "other.mp4"}, "takes one clip, not 2"},
		{[]string{"sheet", "--as", "pdf", "clip.mp4"}, "--as pdf"},
		{[]string{"sheet", "--fail-on", "anything", "clip.mp4"}, "--fail-on anything"},
		{[]string{"sheet", "--fail-on", "", "clip.mp4"}, "there is no such weight"},
		{[]string{"sheet", "--as", "\x1b[31m", "clip.mp4"}, `\x1b`},
		{[]string{"sheet", "--as"}, "--as"},
		{[]string{"sheet", "--out", "", "clip.mp4"}, "no folder given"},
		{[]string{"sheet", "--overwrite", "clip.mp4"}, "goes with --out"},
		{[]string{"sheet", "--link-clip", "clip.mp4"}, "goes with --out"},
		{[]string{"sheet", "--fps", "0", "clip.mp4"}, "--fps"},
		{[]string{"sheet", "--fps", "24/0", "clip.mp4"}, "--fps"},
		{[]string{"sheet", "--fps", "nan", "clip.mp4"}, "--fps"},
		{[]string{"sheet", "--fps", "", "clip.mp4"}, "--fps"},
		{[]string{"sheet", "--first-frame", "one", "clip.mp4"}, `--first-frame: "one" is no value for it`},
		{[]string{"sheet", "--quiet=perhaps", "clip.mp4"}, `--quiet: "perhaps" is no value for it`},
		{[]string{"sheet", "shot.0001.png", "shot.0002.png"}, "shot.%04d.png"},
		{[]string{"sheet", "--first-frame", "999999999999", "clip.mp4"}, "first-frame"},
		{[]string{"sheet", "--figure-height", "tall", "clip.mp4"}, "figure-height"},
		{[]string{"sheet", "--figure-height", "0.04", "clip.mp4"}, "--figure-height 0.04 is out of range"},
		{[]string{"sheet", "--figure-height", "101", "clip.mp4"}, "out of range"},
		{[]string{"sheet", "--figure-height", "nan", "clip.mp4"}, "out of range"},
		{[]string{"sheet", "--from", "9", "--to", "3", "clip.mp4"}, "--to"},
		{[]string{"sheet", "--from", "0", "clip.mp4"}, "comes before the first frame"},
		{[]string{"sheet", "--fps", "23.976", "--from", "00:00:01;00", "clip.mp4"}, "no drop-frame count"},
		{[]string{"sheet", "--feet", "12,40", "clip.mp4"}, "no frame named"},
		{[]string{"sheet", "--feet", "12,40@", "clip.mp4"}, "no frame named"},
		{[]string{"sheet", "--feet", "12@3", "clip.mp4"}, "1 numbers, not 2"},
		{[]string{"sheet", "--feet", "nan,40@3", "clip.mp4"}, `"nan" is no number of pixels`},
		{[]string{"sheet", "--feet", "\x1b[2J,1@3", "clip.mp4"}, `\x1b`},
		{[]string{"sheet", "--figure", "1,2,3@3", "clip.mp4"}, "3 numbers, not 4"},
		{[]string{"sheet", "--figure", "1,2,0,9@3", "clip.mp4"}, "the box is empty"},
		{[]string{"sheet", "--part", "head=1,2,9,0@3", "clip.mp4"}, "the box is empty"},
		{[]string{"sheet", "--part", "head=1,2,9,9", "clip.mp4"}, "no frame named"},
		{[]string{"sheet", "--part", "1,2,9,9@3", "clip.mp4"}, "no name"},
		{[]string{"sheet", "--part", "=cmd=1,2,9,9@3", "clip.mp4"}, "no name"},
		{[]string{"sheet", "--ground", "5,2,5,9", "clip.mp4"}, "the line goes straight up"},
		{[]string{"sheet", "--ground", "1e9,2,5,9", "clip.mp4"}, "is no number of pixels"},
		{[]string{"sheet", "--quiet", "--verbose", "clip.mp4"}, "opposite things"},
		{[]string{"stills", "--quiet", "--verbose", "clip.mp4"}, "opposite things"},
		{[]string{"compare", "--quiet", "--verbose", "a.mp4", "b.mp4"}, "opposite things"},
		{[]string{"demo", "--quiet", "--verbose", "a"}, "opposite things"},
		{[]string{"sheet", "--cache-size", "0", "clip.mp4"}, "sizes go from 1 to"},
		{[]string{"sheet", "--cache-size", "9", "--no-cache", "clip.mp4"}, "opposite things"},
		{[]string{"manual", "sheet"}, "manual takes nothing"},
		{[]string{"completion"}, "no shell given"},
		{[]string{"completion", "tcsh"}, "no script for tcsh"},
		{[]string{"demo"}, "no folder given"},
		{[]string{"demo", "a", "b"}, "takes one folder"},
	} {
		code, stdout, stderr := runFor(c.args...)
		if code != exitUsage || stdout != "" || !twoLines(stderr) || !strings.Contains(stderr, c.says) {
			t.Errorf("%q: exit %d, printed %q, said %q", c.args, code, stdout, stderr)
		}
	}
}

func TestHelpListsExitCodes(t *testing.T) {
	for _, args := range [][]string{
		{"--help"}, {"help"}, {"-h"}, {"sheet", "--help"}, {"help", "sheet"}, {"demo", "--help"}, {"version", "--help"}, {"rules", "--help"},
	} {
		code, stdout, stderr := runFor(args...)
		if code != exitDone || stderr != "" || !strings.Contains(stdout, "EXIT CODES") ||
			!strings.Contains(stdout, "ffmpeg is missing or too old") || !strings.Contains(stdout, "what --fail-on asks about") {
			t.Errorf("%q: exit %d, printed %q, said %q", args, code, stdout, stderr)
		}
	}
}

func TestVersion(t *testing.T) {
	for _, arg := range []string{"version", "--version"} {
		if code, stdout, stderr := runFor(arg); code != 0 || stdout != "holdfast "+version+"\n" || stderr != "" {
			t.Errorf("%s: exit %d, printed %q, said %q", arg, code, stdout, stderr)
		}
	}
}

// The output is looked at before the clip is, so no ffmpeg is needed here.
func TestOutputInTheWay(t *testing.T) {
	dir := t.TempDir()
	clip := filepath.Join(dir, "walk.mp4")
	plain := filepath.Join(dir, "plain")
	old := filepath.Join(dir, "old", "walk")
	for _, f := range []string{clip, plain, filepath.Join(dir, "walk2")} {
		if err := os.WriteFile(f, []byte("mine"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.MkdirAll(old, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(old, "walk.mov"), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"--out", filepath.Dir(old)}, exitOutput, "say --overwrite"},
		{[]string{"--out", filepath.Dir(old), "--overwrite"}, exitOutput, "not replaced"},
		{[]string{"--out", clip}, exitUsage, "the clip itself"},
		{[]string{"--out", plain}, exitOutput, "plain"},
	} {
		code, stdout, stderr := runFor(append(append([]string{"sheet"}, c.args...), clip)...)
		if code != c.code || stdout != "" || !twoLines(stderr) || !strings.Contains(stderr, c.says) {
			t.Errorf("%q: exit %d, printed %q, said %q", c.args, code, stdout, stderr)
		}
	}
	// A clip without suffix has the very name its set would get.
	code, _, stderr := runFor("sheet", "--overwrite", "--out", dir, filepath.Join(dir, "walk2"))
	if code != exitUsage || !strings.Contains(stderr, "the clip itself") {
		t.Errorf("exit %d, said %q", code, stderr)
	}
	for _, f := range []string{clip, plain, filepath.Join(dir, "walk2")} {
		if b, err := os.ReadFile(f); err != nil || string(b) != "mine" {
			t.Errorf("%s holds %q, %v", f, b, err)
		}
	}
}
