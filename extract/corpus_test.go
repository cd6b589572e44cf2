package extract

import (
	"bufio"
	"context"
	"errors"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// corpusGenerator makes a corpus of awkward and hostile files with a list of
// what each must come to.
const corpusGenerator = "../../shared/hostile/gen.sh"

// perFile is how long one file of the corpus may take: a bound against
// hanging, far above what any takes.
const perFile = 2 * time.Minute

func TestHostileCorpus(t *testing.T) {
	if testing.Short() {
		t.Skip("short run: the hostile corpus is left out")
	}
	generator, err := filepath.Abs(corpusGenerator)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(generator); err != nil {
		t.Skip("no generator of hostile files beside the repository: ../shared/hostile/gen.sh")
	}
	root := os.Getenv("HOLDFAST_CORPUS") // one made before: all of it is read
	whole := root != ""
	if !whole {
		root = t.TempDir()
		if out, err := exec.Command("bash", generator, root).CombinedOutput(); err != nil {
			t.Fatalf("make the corpus: %v\n%s", err, out)
		}
	}
	list, err := os.Open(filepath.Join(root, "manifest.tsv"))
	if err != nil {
		t.Fatal(err)
	}
	defer list.Close()
	seen, row := 0, 0
	for lines := bufio.NewScanner(list); lines.Scan(); {
		fields := strings.Split(lines.Text(), "\t")
		if len(fields) != 4 || fields[0] == "path" || tooSlowForTests(fields[0]) {
			continue
		}
		if row++; !whole && alike(fields[1]) && row%4 != 0 {
			continue
		}
		path, err := url.PathUnescape(fields[0])
		if err != nil {
			t.Fatal(err)
		}
		seen++
		checkHostile(t, filepath.Join(root, "corpus", path), fields[0], fields[2])
	}
	if seen < 150 {
		t.Errorf("only %d files in the list", seen)
	}
}

// alike tells of classes whose files differ little, of which a quarter is
// read unless a whole corpus is given.
func alike(class string) bool {
	return class == "02_flip" || class == "10_names" || class == "13_meta" || class == "01_trunc"
}

// tooSlowForTests names a file that takes as long as all others together and
// shows only that length costs no memory.
func tooSlowForTests(name string) bool { return strings.HasSuffix(name, "long30m.mp4") }

// checkHostile reads one file of the corpus. What depends on the pictures
// themselves (a still slide, noise) is for later rooms to warn of.
func checkHostile(t *testing.T, path, name, expect string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), perFile)
	defer cancel()
	var warnings []string
	err := Read(ctx, path, Options{}, func(r *Reader) error {
		err := drain(r)
		warnings = r.Warnings()
		return err
	})
	got := classify(err)
	warned := len(warnings) > 0
	if err != nil && (strings.ContainsFunc(err.Error(), unsafeRune) || HintOf(err) == "" || strings.Contains(err.Error(), filepath.Dir(path))) {
		t.Errorf("%s: message %q", name, err)
	}
	good := false
	switch expect {
	case "OK", "OK_WARN":
		good = got == "ok" && (expect == "OK" || warned || picturesDecide(name))
	case "OK_WARN_PARTIAL":
		good = got == "ok" && warned
	case "ANY_CLEAN":
		good = got != "other" && got != "tool"
	case "ERR_LIMIT", "ERR_TOOBIG":
		good = got == "limit"
	case "ERR_PERM":
		good = got == "input" || os.Getuid() == 0
	case "OK_OR_ERR_SMALL", "OK_OR_DENY", "ERR_OR_IGNORED", "ERR_OR_WARN":
		good = got == "ok" || got == "input"
	case "OK_OR_ERR_TOOBIG":
		good = got == "ok" || got == "limit"
	default:
		good = got == "input" // DENY and all other ERR_...
	}
	if !good {
		t.Errorf("%s: want %s, got %s, %v, warnings %q", name, expect, got, err, warnings)
	}
}

// picturesDecide tells of files whose warning is not about how they are read:
// flat or noisy pictures, and tags, which are never read.
func picturesDecide(name string) bool {
	return strings.HasPrefix(name, "07_content/") || strings.HasPrefix(name, "13_meta/")
}

func classify(err error) string {
	var in *InputError
	var limit *LimitError
	var decode *DecodeError
	var tool *ToolError
	switch {
	case err == nil:
		return "ok"
	case errors.As(err, &in):
		return "input"
	case errors.As(err, &limit):
		return "limit"
	case errors.As(err, &decode):
		return "decode"
	case errors.As(err, &tool):
		return "tool"
	}
	return "other"
}
