package batch

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// A sequence of which a picture comes every minute is finished when none has come
// for three; one with pictures of another day after ten.
func TestRested(t *testing.T) {
	start := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	pictures := func(at ...time.Duration) string {
		dir := t.TempDir()
		for i, d := range at {
			name := filepath.Join(dir, fmt.Sprintf("a.%04d.png", i+1))
			if err := os.WriteFile(name, nil, 0o666); err != nil {
				t.Fatal(err)
			}
			if err := os.Chtimes(name, start.Add(d), start.Add(d)); err != nil {
				t.Fatal(err)
			}
		}
		return filepath.Join(dir, fmt.Sprintf("a.[0001-%04d].png", len(at)))
	}
	rendered := pictures(0, time.Minute, 2*time.Minute)
	mixed := pictures(-24*time.Hour, 0, time.Second)
	copied := pictures(0, 0, 0)
	for _, c := range []struct {
		path  string
		after time.Duration
		want  bool
	}{
		{rendered, 2*time.Minute + 2*time.Second, false},
		{rendered, 4*time.Minute + 59*time.Second, false},
		{rendered, 5 * time.Minute, true},
		{mixed, 9 * time.Minute, false},
		{mixed, 11 * time.Minute, true},
		{copied, 0, true},
		{filepath.Join(filepath.Dir(rendered), "a.0003.png"), 0, true}, // a file
		{filepath.Join(t.TempDir(), "none.[1-2].png"), 0, true},
	} {
		if got := Rested(c.path, start.Add(c.after)); got != c.want {
			t.Errorf("%s after %v: %v, want %v", filepath.Base(c.path), c.after, got, c.want)
		}
	}
}
