package whole

import (
	"errors"
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// renameNew moves a folder to a place where nothing may be. File systems that
// cannot refuse to replace get the next best: making the place is exclusive,
// and a rename over an empty folder is atomic.
func renameNew(from, to string) error {
	err := atomicNew(from, to)
	if !unsupported(err) {
		return err
	}
	if err := os.Mkdir(to, 0o777); err != nil {
		return err
	}
	if err := os.Rename(from, to); err != nil {
		return errors.Join(err, os.Remove(to))
	}
	return nil
}

// exchange swaps two folders. Where the file system cannot, the old one steps
// aside first, and comes back if the new one cannot take its place.
func exchange(temp, final string) error {
	err := atomicExchange(temp, final)
	if !unsupported(err) {
		return err
	}
	aside := filepath.Join(filepath.Dir(temp), filepath.Base(temp)+"-old")
	if err := os.Rename(final, aside); err != nil {
		return err
	}
	if err := os.Rename(temp, final); err != nil {
		return errors.Join(err, os.Rename(aside, final))
	}
	return os.RemoveAll(aside)
}

func unsupported(err error) bool {
	return errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.ENOTSUP)
}
