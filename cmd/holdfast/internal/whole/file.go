package whole

import (
	"os"
	"path/filepath"
)

// WriteFile puts a file in its place whole, instead of one that is there. Folders
// on the way are made.
func WriteFile(path string, data []byte) error {
	f, err := Begin(path)
	if err != nil {
		return err
	}
	defer f.Discard()
	name := filepath.Base(path)
	if err := f.Write(name, data); err != nil {
		return err
	}
	if err := os.Rename(f.Scratch(name), path); err != nil {
		return &Error{path, err}
	}
	f.made = nil
	if err := syncFolder(filepath.Dir(path)); err != nil {
		return &Error{path, err}
	}
	return nil
}
