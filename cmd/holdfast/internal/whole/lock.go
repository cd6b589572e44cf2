package whole

import (
	"os"
	"path/filepath"

	"golang.org/x/sys/unix"
)

// A run holds a lock on its unfinished folder for as long as it lives. The
// kernel drops the lock with the process, however that ends, so a folder
// nobody holds is a leftover.

// acquire locks a folder of one's own; nil when a sweep was faster.
func acquire(temp string) *os.File {
	d, err := os.Open(temp)
	if err != nil {
		return nil
	}
	if unix.Flock(int(d.Fd()), unix.LOCK_EX|unix.LOCK_NB) == nil && stillThere(d, temp) {
		return d
	}
	d.Close()
	return nil
}

// stillThere reports whether an open folder has not been removed meanwhile.
func stillThere(d *os.File, path string) bool {
	open, err1 := d.Stat()
	now, err2 := os.Lstat(path)
	return err1 == nil && err2 == nil && os.SameFile(open, now)
}

// sweep removes unfinished folders that no run holds. It never fails: what it
// cannot remove stays for the next.
func sweep(parent string) {
	left, _ := filepath.Glob(filepath.Join(escapeGlob(parent), prefix+"*"))
	for _, temp := range left {
		if info, err := os.Lstat(temp); err != nil || !info.IsDir() {
			continue
		}
		if lock := acquire(temp); lock != nil {
			os.RemoveAll(temp)
			lock.Close()
		}
	}
}

// escapeGlob makes a path match itself only.
func escapeGlob(path string) string {
	var out []byte
	for i := range len(path) {
		switch path[i] {
		case '*', '?', '[', '\\':
			out = append(out, '\\')
		}
		out = append(out, path[i])
	}
	return string(out)
}
