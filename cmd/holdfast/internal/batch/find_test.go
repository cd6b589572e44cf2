package batch

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// planted is a folder of files by their names, each with a content of its own but
// where one is given after a colon.
func planted(t *testing.T, names ...string) string {
	t.Helper()
	dir := t.TempDir()
	t.Chdir(dir)
	for i, name := range names {
		name, content, given := strings.Cut(name, ":")
		if !given {
			content = fmt.Sprintf("content %d", i)
		}
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func paths(clips []Clip) (list []string) {
	for _, c := range clips {
		list = append(list, c.Path)
	}
	return list
}

func TestFind(t *testing.T) {
	planted(t, "in/b.MOV", "in/a.mp4", "in/notes.txt", "in/.a.mp4", "in/.cut/c.mp4", "in/deep/er/d.webm",
		"in/seq/shot.0998.png", "in/seq/shot.0999.png", "in/seq/shot.1001.png", "in/seq/thumb.jpg", "in/seq/one.0001.png",
		"in/old/batch.json", "in/old/a/a.mp4", "in/res/res.record", "in/res/res.mp4", "list/e.mp4", "f[1].mp4", "x.y")
	for _, c := range []struct{ named, want []string }{
		{[]string{"in"}, []string{"in/a.mp4", "in/b.MOV", "in/deep/er/d.webm", "in/seq/shot.[0998-1001].png"}},
		{[]string{"in/deep/", "in/deep", "./in/deep/er/d.webm"}, []string{"in/deep/er/d.webm"}},
		{[]string{"x.y", "gone.mp4"}, []string{"gone.mp4", "x.y"}}, // named itself it is tried, there or not
		{[]string{"in/*.m*"}, []string{"in/a.mp4"}},                // suffixes in capitals are another pattern
		{[]string{"*"}, []string{"f[1].mp4", "in/a.mp4", "in/b.MOV", "in/deep/er/d.webm", "in/seq/shot.[0998-1001].png", "list/e.mp4", "x.y"}},
		{[]string{"f[1].mp4"}, []string{"f[1].mp4"}}, // a name before a pattern
		{[]string{"in/seq/shot.%04d.png", "in/seq/shot.[0998-0999].png"}, []string{"in/seq/shot.%04d.png", "in/seq/shot.[0998-0999].png"}},
	} {
		found, err := Find(t.Context(), c.named)
		if err != nil || !slices.Equal(paths(found), c.want) {
			t.Errorf("%q: %q, %v; want %q", c.named, paths(found), err, c.want)
		}
	}
}

func TestNamesAreOneClipsOnly(t *testing.T) {
	planted(t, "a/walk.mp4", "b/walk.mov", "b/WALK.mkv", "shares.mp4", "failures.mp4", "alone.mp4")
	found, err := Find(t.Context(), []string{"."})
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{failureFolder: true, shareFolder: true}
	for _, c := range found {
		if key := strings.ToLower(c.Name); seen[key] {
			t.Errorf("%s is called %s, which is taken", c.Path, c.Name)
		} else {
			seen[key] = true
		}
		if c.Path == "alone.mp4" && c.Name != "alone" {
			t.Errorf("%s is called %s", c.Path, c.Name)
		}
	}
	if len(found) != 6 {
		t.Errorf("found %q", paths(found))
	}
	// The same clips named otherwise have the same names.
	again, err := Find(t.Context(), []string{"b", "a", "shares.mp4", "failures.mp4", "alone.mp4"})
	if err != nil || !slices.Equal(again, found) {
		t.Errorf("%v, then %v, %v", found, again, err)
	}
}

func TestReadList(t *testing.T) {
	dir := planted(t, "lists/class.txt:\ufeff# week 3\r\n\r\n a.mp4 \n../b c.mp4\n/abs/d.mp4\n")
	got, err := ReadList(filepath.Join(dir, "lists", "class.txt"))
	want := []string{filepath.Join(dir, "lists", "a.mp4"), filepath.Join(dir, "b c.mp4"), "/abs/d.mp4"}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("%q, %v; want %q", got, err, want)
	}
}

func TestShares(t *testing.T) {
	for text, want := range map[string]Share{
		"1/1": {1, 1}, "3/40": {3, 40}, "40/40": {40, 40},
		"": {}, "3": {}, "0/4": {}, "5/4": {}, "-1/4": {}, "1/0": {}, "1/4/2": {}, "a/b": {}, "1/1000000": {},
	} {
		got, err := ParseShare(text)
		if got != want || (err == nil) != (want.Of > 0) {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	clips := make([]Clip, 11)
	for i := range clips {
		clips[i].Name = fmt.Sprint(i)
	}
	for _, of := range []int{1, 2, 4, 11, 13} {
		seen := map[string]int{}
		for i := 1; i <= of; i++ {
			for _, c := range (Share{i, of}).of(clips) {
				seen[c.Name]++
			}
		}
		for _, c := range clips {
			if seen[c.Name] != 1 {
				t.Errorf("of %d shares %d hold clip %s", of, seen[c.Name], c.Name)
			}
		}
	}
}

func TestArrayShare(t *testing.T) {
	array := func(id, lowest, highest, count string) func(string) string {
		return func(name string) string {
			return map[string]string{"SLURM_ARRAY_TASK_ID": id, "SLURM_ARRAY_TASK_MIN": lowest, "SLURM_ARRAY_TASK_MAX": highest, "SLURM_ARRAY_TASK_COUNT": count}[name]
		}
	}
	for _, c := range []struct {
		env  func(string) string
		want Share
	}{
		{array("0", "0", "9", "10"), Share{1, 10}},
		{array("9", "0", "9", "10"), Share{10, 10}},
		{array("5", "5", "8", "4"), Share{1, 4}},
		{array("4", "0", "8", "5"), Share{}}, // 0-8:2
		{array("", "", "", ""), Share{}},
		{array("x", "0", "9", "10"), Share{}},
	} {
		got, err := ArrayShare(c.env)
		if got != c.want || (err == nil) != (c.want.Of > 0) {
			t.Errorf("%v, %v; want %v", got, err, c.want)
		}
	}
}
