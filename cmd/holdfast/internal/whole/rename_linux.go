package whole

import (
	"os"

	"golang.org/x/sys/unix"
)

func atomicNew(from, to string) error { return renameat2(from, to, unix.RENAME_NOREPLACE) }

func atomicExchange(a, b string) error { return renameat2(a, b, unix.RENAME_EXCHANGE) }

func renameat2(from, to string, flags uint) error {
	if err := unix.Renameat2(unix.AT_FDCWD, from, unix.AT_FDCWD, to, flags); err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
	}
	return nil
}
