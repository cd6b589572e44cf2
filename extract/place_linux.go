package extract

import (
	"errors"

	"golang.org/x/sys/unix"
)

// renameNew renames, but never over another file. Disks that cannot do it in
// one go (old kernels, some network and foreign file systems) get a hard link.
func renameNew(from, to string) error {
	err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, unix.RENAME_NOREPLACE)
	if errors.Is(err, unix.ENOSYS) || errors.Is(err, unix.EINVAL) {
		return linkNew(from, to)
	}
	return err
}
