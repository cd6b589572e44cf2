package solid

import (
	"image"
	"os"
	"path/filepath"
	"testing"
)

// recordings is the folder of recordings beside the repository; the test is
// skipped where there is none.
func recordings(t *testing.T) string {
	t.Helper()
	folder := filepath.Join("..", "..", "..", "..", "shared", "mocap")
	if _, err := os.Stat(folder); err != nil {
		t.Skip("no recordings beside the repository")
	}
	return folder
}

// recorded is the catalogue, small, of all recordings.
func recorded(t *testing.T) []*Scene {
	t.Helper()
	scenes, err := Catalogue(image.Pt(320, 180), Open(os.DirFS(recordings(t))))
	if err != nil {
		t.Fatal(err)
	}
	return scenes
}
