package main

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

var overstrike = regexp.MustCompile(".\x08|\x1b\\[[0-9;]*m")

// man itself shows the page without a complaint, with every command, option and
// exit code.
func TestManual(t *testing.T) {
	man := shellOrSkip(t, "man")
	code, page, stderr := runFor("manual")
	if code != exitDone || stderr != "" {
		t.Fatalf("exit %d, said %q", code, stderr)
	}
	path := filepath.Join(t.TempDir(), "holdfast.1")
	if err := os.WriteFile(path, []byte(page), 0o666); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(man, "--warnings", "-l", path)
	cmd.Env = append(os.Environ(), "MANWIDTH=200", "MAN_KEEP_FORMATTING=", "LC_ALL=C.UTF-8")
	var complaints strings.Builder
	cmd.Stderr = &complaints
	out, err := cmd.Output()
	if err != nil || complaints.Len() > 0 {
		t.Fatalf("man: %v, said %q", err, complaints.String())
	}
	shown := overstrike.ReplaceAllString(string(out), "")
	var wanted []string
	for _, c := range describe(newApp(io.Discard, io.Discard)) {
		wanted = append(wanted, c.synopsis)
		for _, o := range c.options {
			wanted = append(wanted, "--"+o.name)
		}
	}
	for _, e := range exitMeanings {
		wanted = append(wanted, e.code, e.means)
	}
	wanted = append(wanted, "NO_COLOR", "'shot.%04d.png'", "43-51: longer hold here")
	for _, want := range wanted {
		if !strings.Contains(shown, want) {
			t.Errorf("the page does not show %q", want)
		}
	}
}

// Whatever a definition says, roff shows it as it is.
func TestManualEscapes(t *testing.T) {
	man := shellOrSkip(t, "man")
	const odd = `.TH 'x' \fBbold\fR "q" -- ~^` + "`"
	var r roff
	r.macro("TH", "ODD", "1")
	r.macro("SH", `a "quoted" head`)
	r.text(odd)
	r.item(odd, odd)
	path := filepath.Join(t.TempDir(), "odd.1")
	if err := os.WriteFile(path, []byte(r.String()), 0o666); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(man, "--warnings", "-l", path)
	cmd.Env = append(os.Environ(), "MANWIDTH=200", "LC_ALL=C.UTF-8")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if shown := overstrike.ReplaceAllString(string(out), ""); strings.Count(shown, odd) != 3 || !strings.Contains(shown, `a "quoted" head`) {
		t.Errorf("shown is %s", shown)
	}
}

func TestDescribeOption(t *testing.T) {
	for _, c := range []struct {
		flag cli.Flag
		want option
	}{
		{&cli.StringFlag{Name: "as", Value: "table", Usage: "print it as `FORM`: csv"}, option{"as", "FORM", "print it as FORM: csv", "table"}},
		{&cli.StringFlag{Name: "out", Usage: "write it"}, option{"out", "VALUE", "write it", ""}},
		{&cli.BoolFlag{Name: "quiet", Usage: "say nothing"}, option{"quiet", "", "say nothing", ""}},
		{&cli.IntFlag{Name: "first", Value: 1, Usage: "`N`"}, option{"first", "N", "N", "1"}},
	} {
		if got, ok := describeOption(c.flag); !ok || got != c.want {
			t.Errorf("%+v, want %+v", got, c.want)
		}
	}
}
