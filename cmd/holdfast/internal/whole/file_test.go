package whole

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "new", "list.json")
	for _, text := range []string{"one", "two"} {
		if err := WriteFile(path, []byte(text)); err != nil {
			t.Fatal(err)
		}
		if got := read(t, path); got != text {
			t.Errorf("holds %q, want %q", got, text)
		}
	}
	if got := entries(t, dir); !slices.Equal(got, []string{"new", "new/list.json"}) {
		t.Errorf("left behind: %q", got)
	}
	// A folder is in the way: it stays, and nothing else is left.
	if err := os.MkdirAll(filepath.Join(dir, "taken", "full"), 0o777); err != nil {
		t.Fatal(err)
	}
	if err := WriteFile(filepath.Join(dir, "taken"), []byte("three")); err == nil {
		t.Error("a folder was replaced by a file")
	}
	if got := entries(t, dir); !slices.Equal(got, []string{"new", "new/list.json", "taken", "taken/full"}) {
		t.Errorf("left behind: %q", got)
	}
}
