package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestRules(t *testing.T) {
	for form, says := range map[string]string{
		"table": "foot-pop (look): a foot that", "json": `"kind": "foot-pop"`, "toml": "[foot-pop]\n# look: a foot that",
	} {
		code, stdout, stderr := runFor("rules", "--as", form)
		if code != exitDone || stderr != "" || !strings.Contains(stdout, says) {
			t.Errorf("%s: exit %d, said %q, printed %q", form, code, stderr, stdout)
		}
	}
}

// What rules prints as TOML is a house file, and what a house has rules at is
// what rules prints.
func TestRulesOfAHouse(t *testing.T) {
	house := filepath.Join(t.TempDir(), "house.toml")
	_, whole, _ := runFor("rules", "--as", "toml")
	own := strings.Replace(whole, "\nfix_share = 0.04\n", "\nfix_share = 0.055\n", 1)
	if own == whole {
		t.Fatal("no fix_share to change")
	}
	if err := os.WriteFile(house, []byte(own), 0o666); err != nil {
		t.Fatal(err)
	}
	if code, stdout, stderr := runFor("rules", "--house", house, "--as", "toml"); code != exitDone || stdout != own {
		t.Errorf("exit %d, said %q, printed %q", code, stderr, stdout)
	}
}

// A house file that is wrong is told by its name and line before the clip is
// looked at, and nothing is printed or written.
func TestWrongHouseFiles(t *testing.T) {
	dir := t.TempDir()
	house := filepath.Join(dir, "house.toml")
	if err := os.WriteFile(house, []byte("[slide]\n\nfix_shar = 0.1\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"sheet", "--out", filepath.Join(dir, "made"), "--house", house, "absent.mp4"}, house + `: line 3: slide has no threshold "fix_shar"`},
		{[]string{"rules", "--house", house}, house + ": line 3: "},
		{[]string{"sheet", "--house", filepath.Join(dir, "none.toml"), "clip.mp4"}, "none.toml: there is no such file"},
		{[]string{"sheet", "--house", dir, "clip.mp4"}, dir + ": is a directory"},
		{[]string{"sheet", "--house", "", "clip.mp4"}, "--house: no file given"},
		{[]string{"sheet", "--house"}, "nothing follows --house"},
		{[]string{"rules", "--as", "csv"}, "--as csv: there is no such form"},
		{[]string{"rules", "clip.mp4"}, "rules takes no clip"},
	} {
		code, stdout, stderr := runFor(c.args...)
		if code != exitUsage || stdout != "" || !twoLines(stderr) || !strings.Contains(stderr, c.says) {
			t.Errorf("%q: exit %d, printed %q, said %q", c.args, code, stdout, stderr)
		}
	}
	if made, _ := filepath.Glob(filepath.Join(dir, "made*")); made != nil {
		t.Errorf("left %q", made)
	}
}
