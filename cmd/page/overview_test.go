package page

import (
	"bytes"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"holdfast/sheet"
	"holdfast/sheet/overview"
)

// hostileName does something wherever it is taken for markup or for a link.
const hostileName = `"><img src=x onerror=alert(1)><script>alert(2)</script>javascript:alert(3)`

// manyClips is an overview of three passes of a shot, a clip with a hostile name and
// one without a sheet.
func manyClips() *Overview {
	row := func(name, shot string, pass, fix, look, slides int, newest bool, kinds ...string) overview.Row {
		return overview.Row{
			Item: overview.Item{Name: name, Path: "in/" + name + ".mp4"}, Shot: shot, Pass: pass, Newest: newest,
			Clip:  sheet.Clip{Name: name + ".mp4", Width: 320, Height: 180, FPS: sheet.Rate{Num: 24, Den: 1}, Frames: 48 + pass, Seconds: 2},
			Beats: 5, Holds: 3, Held: 20, Moves: 2, Slides: slides, Fix: fix, Look: look, Kinds: kinds,
		}
	}
	first := row("hop_v2", "hop", 2, 2, 0, 1, true, "slide", "dead-hold")
	first.Since = &overview.Change{Name: "hop_v1", Related: true, Fixed: 1, New: 2}
	first.Against = &overview.Agreement{Name: "hop_vref", Related: true, Likeness: 0.915, Changes: 3}
	bad := overview.Row{Item: overview.Item{Name: "bad", Path: "in/bad.mp4", Fail: &overview.Fail{Error: hostileName, Hint: "<i>again</i>"}}}
	return &Overview{
		Title: "a class <b>of</b> many",
		Overview: &overview.Overview{
			Rows: []overview.Row{
				first, row(hostileName, hostileName, 0, 0, 1, 0, true, "hitch"), row("walk", "walk", 0, 0, 0, 4, true), row("hop_v1", "hop", 1, 3, 0, 0, false, "slide"),
			},
			Failed: []overview.Row{bad},
		},
		Link:   func(name string) string { return "./" + url.PathEscape(name) + "/page.html" },
		Poster: func(string) []byte { return nil },
	}
}

func writtenOverview(t *testing.T, o *Overview) string {
	t.Helper()
	var b bytes.Buffer
	if err := o.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestOverviewEscapes(t *testing.T) {
	text := writtenOverview(t, manyClips())
	for _, live := range []string{"<img src=x", "<script>alert", "<b>of", "<i>again", `href="javascript`} {
		if strings.Contains(text, live) {
			t.Errorf("the page holds %s", live)
		}
	}
	for _, told := range []string{"since hop_v1: 1 fixed, 2 new", "against hop_vref: likeness 0.92, 3 differences", "5 beats: 3 holds (20 frames), 2 moves; 1 slide, 0 hops", "hop, pass 2", "2 notes to fix in the newest passes", "1 without a sheet"} {
		if !strings.Contains(text, told) {
			t.Errorf("the page does not say %q", told)
		}
	}
}

func TestOverviewInABrowser(t *testing.T) {
	b := startBrowser(t)
	path := filepath.Join(t.TempDir(), "overview.html")
	if err := os.WriteFile(path, []byte(writtenOverview(t, manyClips())), 0o600); err != nil {
		t.Fatal(err)
	}
	b.run(chromedp.Navigate((&url.URL{Scheme: "file", Path: path}).String()))
	shown := func(want ...string) {
		t.Helper()
		got := eval[[]string](b, `[...document.querySelectorAll("#clips .clip")].filter((e) => e.checkVisibility()).map((e) => e.dataset.name.slice(0, 6))`)
		if !slices.Equal(got, want) {
			t.Errorf("it shows %q, want %q", got, want)
		}
		if told := eval[string](b, `document.getElementById("shown").textContent`); told != fmt.Sprintf("%d of 4", len(want)) {
			t.Errorf("it says %q", told)
		}
	}
	set := func(id, value string) {
		t.Helper()
		b.run(chromedp.Evaluate(fmt.Sprintf(`{ const e = document.getElementById(%q); e.value = %q; e.dispatchEvent(new Event("input")); }`, id, value), nil))
	}
	odd := hostileName[:6]
	shown("hop_v2", odd, "walk")
	b.run(chromedp.Click("#newest", chromedp.ByQuery))
	shown("hop_v2", odd, "walk", "hop_v1")
	set("order", "slides")
	shown("walk", "hop_v2", odd, "hop_v1")
	set("order", "name")
	set("weight", "fix")
	shown("hop_v1", "hop_v2")
	set("kind", "dead-hold")
	shown("hop_v2")
	set("kind", "")
	set("weight", "none")
	shown("walk")
	set("weight", "")
	set("find", "HOP hold")
	shown("hop_v2")
	set("find", "nothing of the kind")
	shown()
	set("find", "")
	b.keysReachEverything()
	b.nothingOverflows()
	b.noTrouble()
}
