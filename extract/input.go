package extract

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"time"
)

// input is what a path turned out to be: one file, or a sequence of them.
type input struct {
	path string    // absolute path of the file, or of the pattern
	name string    // base name or pattern, escaped
	size int64     // bytes; of a file
	time time.Time // of its last change; of a file
	sniffed
	sequence *sequence
	rate     Rate // of a sequence

	soundOnly bool // only its sound is wanted
}

// demuxer returns the options that choose and steer the demuxer.
func (in input) demuxer() [][2]string {
	if in.sequence != nil {
		return [][2]string{
			{"f", "image2"},
			{"pattern_type", "sequence"},
			{"start_number", strconv.FormatInt(in.sequence.first, 10)},
			{"framerate", in.rate.String()},
		}
	}
	if in.force != "" {
		return [][2]string{{"f", in.force}}
	}
	return nil
}

// url is what follows -i.
func (in input) url() string {
	if in.sequence != nil {
		return fileURL(in.sequence.escapedPattern())
	}
	return fileURL(in.path)
}

// openInput looks at what path names before any child does: a file of just
// that name goes first, then a sequence.
func openInput(ctx context.Context, path string, fps Rate) (input, error) {
	abs, err := filepath.Abs(path)
	if err != nil || path == "" {
		return input{}, inputError(path, Missing, "no name given")
	}
	in := input{path: abs, name: SafeName(abs)}
	info, err := os.Stat(abs)
	if err != nil && errors.Is(err, fs.ErrNotExist) {
		seq, seqErr := findSequence(ctx, abs)
		if seqErr != nil {
			return input{}, seqErr
		}
		if seq != nil {
			in.sequence, in.rate = seq, fps
			if fps.IsZero() {
				in.rate = defaultSequenceRate
			}
			return in, nil
		}
	}
	if err != nil {
		return input{}, statError(abs, err)
	}
	if err := checkRegular(abs, info); err != nil {
		return input{}, err
	}
	in.size, in.time = info.Size(), info.ModTime()
	in.sniffed, err = sniffFile(abs)
	return in, err
}

func statError(path string, err error) *InputError {
	e := inputError(path, Missing, "")
	e.Err = err
	switch {
	case errors.Is(err, fs.ErrPermission):
		e.Kind = NoAccess
	case errors.Is(err, syscall.ELOOP):
		e.Detail = "a link that leads back to itself"
	case errors.Is(err, syscall.ENAMETOOLONG):
		e.Detail = "the name is too long"
	case errors.Is(err, syscall.ENOTDIR):
		e.Detail = "part of its path is a file"
	}
	return e
}

// checkRegular refuses what would hang a reader or has nothing in it.
func checkRegular(path string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return inputError(path, Directory, "")
	case !info.Mode().IsRegular():
		return inputError(path, NotRegular, "")
	case info.Size() == 0:
		return inputError(path, Empty, "")
	}
	return nil
}

// checkBytes holds a file's size to the limit.
func checkBytes(in input, l Limits) error {
	if in.size <= l.Bytes {
		return nil
	}
	return &LimitError{
		Name: in.name, Limit: "Bytes",
		Got: fmt.Sprintf("it has %d", in.size), Max: fmt.Sprintf("%d bytes", l.Bytes),
	}
}

// changed tells whether a file is another than when it was looked at first:
// written to, cut, replaced or gone. A render that still runs does that.
func (in input) changed() bool {
	if in.sequence != nil {
		return false
	}
	info, err := os.Stat(in.path)
	return err != nil || info.Size() != in.size || !info.ModTime().Equal(in.time)
}
