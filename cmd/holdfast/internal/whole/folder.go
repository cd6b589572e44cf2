// Package whole puts folders of results on disk whole or not at all: they are
// filled beside their final place, synced, and renamed into it.
package whole

import (
	"bufio"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// prefix begins the name of every folder that is not finished.
const prefix = ".holdfast-"

// An Error says what could not be written.
type Error struct {
	Path string
	Err  error
}

func (e *Error) Error() string {
	// The system's own error repeats the call and the path.
	var path *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(e.Err, &path):
		return fmt.Sprintf("%s: %v", e.Path, path.Err)
	case errors.As(e.Err, &link):
		return fmt.Sprintf("%s: %v", e.Path, link.Err)
	}
	return fmt.Sprintf("%s: %v", e.Path, e.Err)
}

func (e *Error) Unwrap() error { return e.Err }

// ErrForeign says that what stands in the way is not a folder this program
// wrote, so it is not replaced.
var ErrForeign = errors.New("holds other things than results and is not replaced")

// A Folder is being filled. Call Discard when done with it, whatever happened:
// after Commit it has nothing left to do.
type Folder struct {
	final string
	temp  string
	lock  *os.File
	made  []string // parents made on the way, innermost last
}

// Begin makes an empty folder beside final, and final's parents where they
// lack. Unfinished folders that a killed run left there are cleared. Errors
// are *Error.
func Begin(final string) (*Folder, error) {
	f := &Folder{final: final}
	parent := filepath.Dir(final)
	if err := f.makeParents(parent); err != nil {
		f.Discard()
		return nil, &Error{parent, err}
	}
	sweep(parent)
	for range maxTries {
		temp := filepath.Join(parent, prefix+rand.Text())
		if err := os.Mkdir(temp, 0o777); err != nil {
			f.Discard()
			return nil, &Error{parent, err}
		}
		if lock := acquire(temp); lock != nil {
			f.temp, f.lock = temp, lock
			return f, nil
		}
	}
	f.Discard()
	return nil, &Error{parent, errors.New("another run keeps clearing the temporary folder")}
}

// maxTries bounds the meetings with another run's sweep between making a
// folder and locking it; one is rare already.
const maxTries = 10

// makeParents makes a folder and those above it, and remembers which were new.
func (f *Folder) makeParents(dir string) error {
	info, err := os.Stat(dir)
	if err == nil && !info.IsDir() {
		return &fs.PathError{Op: "mkdir", Path: dir, Err: errors.New("is not a folder")}
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if up := filepath.Dir(dir); up != dir {
		if err := f.makeParents(up); err != nil {
			return err
		}
	}
	err = os.Mkdir(dir, 0o777)
	if errors.Is(err, fs.ErrExist) {
		return nil // another run was faster
	}
	if err == nil {
		f.made = append(f.made, dir)
	}
	return err
}

// Write adds a file and waits until it is on the disk. Errors are *Error.
func (f *Folder) Write(name string, data []byte) error {
	return f.WriteFrom(name, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// WriteFrom adds a file that write fills, and waits until it is on the disk.
// Errors are *Error.
func (f *Folder) WriteFrom(name string, write func(io.Writer) error) error {
	file, err := os.OpenFile(f.Scratch(name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err == nil {
		w := bufio.NewWriter(file)
		err = errors.Join(write(w), w.Flush(), file.Sync(), file.Close())
	}
	if err != nil {
		return &Error{filepath.Join(f.final, name), err}
	}
	return nil
}

// Scratch is the path of a file in the folder while it is being filled, for
// what others write there. What is no result must go before Commit.
func (f *Folder) Scratch(name string) string { return filepath.Join(f.temp, name) }

// Commit moves the folder to its place. What stands there already is kept and
// the error wraps fs.ErrExist, unless ours is given and says of every name in
// it that it is a result: then the old folder goes, and any other name makes
// the error wrap ErrForeign. A cancelled context is the last thing looked at
// before the move. Errors are *Error or the context's cause.
func (f *Folder) Commit(ctx context.Context, ours func(name string) bool) error {
	if err := syncFolder(f.temp); err != nil {
		return &Error{f.final, err}
	}
	if err := Vacant(f.final, ours); err != nil {
		return err
	}
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	err := renameNew(f.temp, f.final)
	if errors.Is(err, fs.ErrExist) && ours != nil {
		err = exchange(f.temp, f.final)
	} else if err == nil {
		f.temp = ""
	}
	if err != nil {
		return &Error{f.final, err}
	}
	f.made = nil
	if err := syncFolder(filepath.Dir(f.final)); err != nil {
		return &Error{f.final, err}
	}
	return nil
}

// Vacant reports whether results could go to path: nothing is there, or ours
// is given and what is there is a real folder with nothing but results. Errors
// are *Error and wrap fs.ErrExist or ErrForeign.
func Vacant(path string, ours func(name string) bool) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return &Error{path, err}
	case ours == nil:
		return &Error{path, fs.ErrExist}
	case !info.IsDir():
		return &Error{path, ErrForeign}
	}
	entries, err := os.ReadDir(path)
	if err != nil {
		return &Error{path, err}
	}
	for _, e := range entries {
		if !e.Type().IsRegular() || !ours(e.Name()) {
			return &Error{path, ErrForeign}
		}
	}
	return nil
}

// Discard removes what is unfinished, and the parents that were made for it.
func (f *Folder) Discard() {
	if f.temp != "" {
		os.RemoveAll(f.temp)
		f.temp = ""
	}
	if f.lock != nil {
		f.lock.Close()
		f.lock = nil
	}
	for i := len(f.made) - 1; i >= 0; i-- {
		os.Remove(f.made[i]) // fails, as it should, where somebody else wrote meanwhile
	}
	f.made = nil
}

func syncFolder(path string) error {
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
