package extract

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// place gives a finished temporary file its name. It never replaces a file:
// of two that want the same name one wins and the other is told. The last
// thing before the name appears is to ask whether the user has given up.
func place(ctx context.Context, temporary, path string) error {
	failed := func(err error) error {
		return &OutputError{Name: SafeName(path), What: reason(err), Err: err}
	}
	if err := syncPath(temporary); err != nil {
		return failed(err)
	}
	if err := os.Chmod(temporary, newFileMode); err != nil {
		return failed(err)
	}
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	switch err := renameNew(temporary, path); {
	case errors.Is(err, fs.ErrExist):
		return alreadyThere(path)
	case err != nil:
		return failed(err)
	}
	// The file is whole and named; that its name survives a power cut is
	// worth trying, not worth failing for.
	_ = syncPath(filepath.Dir(path))
	return nil
}

// newFileMode is that of a usual new file under a usual umask; temporary
// files start out private.
const newFileMode = 0o644

func alreadyThere(path string) error {
	return &OutputError{Name: SafeName(path), What: "a file of that name is there already", Exists: true, Err: fs.ErrExist}
}

// linkNew gives a file a second name, which fails when the name is taken, and
// takes the first away.
func linkNew(from, to string) error {
	if err := os.Link(from, to); err != nil {
		return err
	}
	return os.Remove(from)
}

func syncPath(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// reason words the common failures of a file system.
func reason(err error) string {
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return "the disk is full"
	case errors.Is(err, syscall.EROFS):
		return "the disk is read-only"
	case errors.Is(err, fs.ErrPermission):
		return "the folder may not be written to"
	case errors.Is(err, fs.ErrNotExist):
		return "its folder does not exist"
	case errors.Is(err, syscall.ENOTDIR):
		return "its folder is a file"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return escape(path.Err.Error())
	}
	return "the system refused"
}

func lastLine(s string) string {
	s = strings.TrimSpace(s)
	return s[strings.LastIndexByte(s, '\n')+1:]
}
