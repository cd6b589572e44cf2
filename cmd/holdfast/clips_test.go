package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"holdfast/sheet"
)

// clip returns the path of a filmed or rendered clip with known truth, or skips.
// The clips and their truths, read by eye, lie beside the repository.
func clip(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join("..", "..", "..", "shared", "clips", name)
	if _, err := os.Stat(path); err != nil {
		t.Skipf("no clip %s beside the repository", name)
	}
	return path
}

func sheetOf(t *testing.T, path string) *sheet.Sheet {
	t.Helper()
	code, out, errs := runFor("sheet", "--first-frame", "0", "--as", "json", path)
	if code != 0 {
		t.Fatalf("%s: exit %d: %s", path, code, errs)
	}
	var s sheet.Sheet
	if err := json.Unmarshal([]byte(out), &s); err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return &s
}

// Truths read by eye from stills and frame differences, uncertain by the
// frames given.
func TestFilmedRests(t *testing.T) {
	for _, c := range []struct {
		clip  string
		holds [][2]int
	}{
		{"gesture-again.mkv", [][2]int{{22, 28}, {47, 58}}},
		{"gesture-help.mkv", [][2]int{{29, 37}}},
	} {
		var got [][2]int
		for _, b := range sheetOf(t, clip(t, c.clip)).Beats {
			if b.Kind == "hold" {
				got = append(got, [2]int{b.Start, b.End})
			}
		}
		ok := len(got) == len(c.holds)
		for i := 0; ok && i < len(got); i++ {
			for end := range 2 {
				d := got[i][end] - c.holds[i][end]
				ok = ok && d >= -2 && d <= 2
			}
		}
		if !ok {
			t.Errorf("%s: holds %v, want %v within 2 frames", c.clip, got, c.holds)
		}
	}
}

func starts(s *sheet.Sheet) (cuts []int) {
	for _, shot := range s.Shots[1:] {
		cuts = append(cuts, shot.Start)
	}
	return cuts
}

func TestFilmCuts(t *testing.T) {
	if testing.Short() {
		t.Skip("a clip of 1253 frames")
	}
	cuts := []int{334, 396, 404, 420, 571, 621, 658, 672}
	// Read by eye: on which frames another picture comes up after a blank, or
	// begins to show more than the one it dissolves out of.
	joins := []int{125, 224, 285, 525, 772, 1140}
	got := starts(sheetOf(t, clip(t, "film-trailer.mp4")))
	for _, f := range joins {
		i := slices.IndexFunc(got, func(g int) bool { return g >= f-2 && g <= f+2 })
		if i < 0 {
			t.Errorf("shots start on %v, none of them about %d", got, f)
			continue
		}
		got = slices.Delete(got, i, i+1)
	}
	// Both pictures of the dissolve about 988 move; whether it is told is open.
	got = slices.DeleteFunc(got, func(g int) bool { return g >= 986 && g <= 990 })
	if !slices.Equal(got, cuts) {
		t.Errorf("cuts at %v, want %v", got, cuts)
	}
}

func TestClipsWithoutCuts(t *testing.T) {
	for _, name := range []string{"rope-skipping.webm", "drawn-walk.gif", "ball-in-flight.mp4"} {
		s := sheetOf(t, clip(t, name))
		if cuts := starts(s); cuts != nil {
			t.Errorf("%s: cuts at %v, want none", name, cuts)
		}
		if name == "drawn-walk.gif" && s.Shots[0].Camera.Kind != "still" {
			t.Errorf("%s: camera %s, want still", name, s.Shots[0].Camera.Kind)
		}
	}
}

// moduleFile returns a file of a module that this one is built with, or skips.
func moduleFile(t *testing.T, module string, path ...string) string {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", module).Output()
	if err != nil {
		t.Skipf("where %s lies is not known: %v", module, err)
	}
	file := filepath.Join(append([]string{strings.TrimSpace(string(dir))}, path...)...)
	if _, err := os.Stat(file); err != nil {
		t.Skipf("%s does not ship its sample: %v", module, err)
	}
	return file
}

// A man in a close shot before a plain wall, at 12 frames a second, coded hard:
// he looks ahead, blinking and swaying a little, leans his head to one side,
// keeps it there and straightens up again.
func TestHeadLeans(t *testing.T) {
	s := sheetOf(t, moduleFile(t, "github.com/u2takey/ffmpeg-go", "examples", "sample_data", "head-pose-face-detection-male-short.mp4"))
	// By eye, counted from 0: the head is first seen to lean at 78 and last at 97,
	// to rise at 146 and 168, each within three frames.
	want := []struct {
		kind       string
		start, end int
	}{{"hold", 0, 77}, {"move", 78, 97}, {"hold", 98, 145}, {"move", 146, 168}, {"hold", 169, 180}}
	if len(s.Beats) != len(want) {
		t.Fatalf("%d beats, want %d", len(s.Beats), len(want))
	}
	for i, b := range s.Beats {
		w := want[i]
		if start, end := b.Start-w.start, b.End-w.end; b.Kind != w.kind || start < -3 || start > 3 || end < -3 || end > 3 {
			t.Errorf("beat %d: %s %d-%d, want %s %d-%d within 3 frames", i, b.Kind, b.Start, b.End, w.kind, w.start, w.end)
		}
	}
	if kind := s.Shots[0].Camera.Kind; kind != "still" {
		t.Errorf("camera %s, want still", kind)
	}
}

// The clip that the gocv module ships shows a toy of plastic bricks that stands
// still, turns, and stands still again.
func TestToyTurns(t *testing.T) {
	s := sheetOf(t, moduleFile(t, "gocv.io/x/gocv", "images", "small.mp4"))
	first, last := s.Beats[0], s.Beats[len(s.Beats)-1]
	if first.Kind != "hold" || last.Kind != "hold" {
		t.Fatalf("starts with a %s and ends with a %s, want holds", first.Kind, last.Kind)
	}
	// By eye: the first change is at 41 and the last at 99, two frames either way.
	// The turn sets in slowly: for two more frames nothing goes clearly farther than
	// the clip's noise.
	if first.End < 37 || first.End > 44 || last.Start < 96 || last.Start > 101 {
		t.Errorf("stands until %d and from %d, want about 40 and 98", first.End, last.Start)
	}
}
