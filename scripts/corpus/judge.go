//go:build linux

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Exit codes as the program documents them.
const (
	done     = 0
	badInput = 3
	atLimit  = 5
)

// codes are the exit codes each word of the manifest allows.
var codes = map[string][]int{
	"OK": {done}, "OK_WARN": {done}, "OK_WARN_PARTIAL": {done},
	"ERR_LIMIT": {atLimit}, "ERR_TOOBIG": {atLimit},
	"ANY_CLEAN":       {done, badInput, atLimit},
	"OK_OR_DENY":      {done, badInput},
	"OK_OR_ERR_SMALL": {done, badInput}, "ERR_OR_IGNORED": {done, badInput}, "ERR_OR_WARN": {done, badInput},
	"OK_OR_ERR_TOOBIG": {done, atLimit},
}

func allowed(expect string) []int {
	if c, ok := codes[expect]; ok {
		return c
	}
	if expect == "ERR_PERM" && os.Getuid() == 0 {
		return []int{done} // nothing is closed to root
	}
	return []int{badInput} // DENY and the other ERR_...
}

// judge says what is wrong with an outcome.
func judge(in input, got outcome, o options) (faults []string) {
	wrong := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	if got.hung {
		return []string{fmt.Sprintf("took longer than %v", o.limit)}
	}
	switch {
	case got.signal != 0:
		wrong("ended by %v", got.signal)
	case !slices.Contains(allowed(in.expect), got.code):
		wrong("exit %d: %q", got.code, firstLine(got.stderr))
	}
	if got.memory > o.memory {
		wrong("a process of %d MB", got.memory)
	}
	if got.orphans > 0 {
		wrong("left %d processes running", got.orphans)
	}
	if len(got.strays) > 0 {
		wrong("left %q behind", got.strays)
	}
	if strings.ContainsFunc(got.stderr, unsafe) || !utf8.ValidString(got.stderr) {
		wrong("wrote control characters: %q", got.stderr)
	}
	if got.code == done {
		return append(faults, judgeSheet(in, got)...)
	}
	return append(faults, judgeRefusal(in, got)...)
}

// judgeRefusal: one line that names the file, one that says what to do, and
// nothing written.
func judgeRefusal(in input, got outcome) (faults []string) {
	lines := strings.Split(strings.TrimSuffix(got.stderr, "\n"), "\n")
	if len(lines) != 2 || !strings.HasPrefix(lines[0], "holdfast: ") || !strings.HasPrefix(lines[1], "hint: ") {
		faults = append(faults, fmt.Sprintf("said %q", got.stderr))
	}
	if got.stdout != "" || len(got.results) > 0 {
		faults = append(faults, "wrote results")
	}
	if got.code == atLimit && !strings.Contains(got.stderr, "--") {
		faults = append(faults, fmt.Sprintf("names no option: %q", got.stderr))
	}
	return faults
}

// beatSheet is what is looked at in a sheet.
type beatSheet struct {
	Clip struct {
		Frames   int      `json:"frames"`
		Warnings []string `json:"warnings"`
	} `json:"clip"`
}

// sameClip are classes whose inputs are all one clip of so many frames.
var sameClip = map[string]int{"10_names": 6, "13_meta": 6}

// partial is how a sheet says how much of a clip is there.
var partial = regexp.MustCompile(`\d+ of (?:about )?\d+|damaged|no time|missing`)

func judgeSheet(in input, got outcome) (faults []string) {
	var s beatSheet
	if err := json.Unmarshal([]byte(got.stdout), &s); err != nil {
		return []string{"no JSON: " + err.Error()}
	}
	if s.Clip.Frames < 1 {
		faults = append(faults, "a sheet without frames")
	}
	if n, ok := sameClip[in.class]; ok && s.Clip.Frames != n {
		faults = append(faults, fmt.Sprintf("%d frames, want %d", s.Clip.Frames, n))
	}
	if len(got.results) != 1 || strings.HasPrefix(got.results[0], ".holdfast-") || filepath.Base(got.results[0]) != got.results[0] {
		faults = append(faults, fmt.Sprintf("results in %q", got.results))
	}
	switch in.expect {
	case "OK_WARN":
		if len(s.Clip.Warnings) == 0 {
			faults = append(faults, "no warning")
		}
	case "OK_WARN_PARTIAL":
		if !partial.MatchString(strings.Join(s.Clip.Warnings, "\n")) {
			faults = append(faults, fmt.Sprintf("says not how much is there: %q", s.Clip.Warnings))
		}
	}
	return faults
}

// unsafe tells of what does something to a terminal.
func unsafe(r rune) bool {
	return r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Cf, r)
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}
