package extract

import (
	"os"
	"syscall"

	"golang.org/x/sys/unix"
)

func childAttributes() *syscall.SysProcAttr {
	return &syscall.SysProcAttr{Setpgid: true, Pdeathsig: syscall.SIGKILL}
}

// pipeSize is what is asked for a pipe of frames, in bytes: the most that
// Linux gives to everyone. A frame then takes one or two turns, not six.
const pipeSize = 1 << 20

// widenPipe enlarges a pipe where the system allows it; it works without.
func widenPipe(f *os.File) {
	raw, err := f.SyscallConn()
	if err != nil {
		return
	}
	_ = raw.Control(func(fd uintptr) {
		_, _ = unix.FcntlInt(fd, unix.F_SETPIPE_SZ, pipeSize)
	})
}
