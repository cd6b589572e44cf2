//go:build unix && !linux

package extract

import (
	"os"
	"syscall"
)

func childAttributes() *syscall.SysProcAttr { return &syscall.SysProcAttr{Setpgid: true} }

func widenPipe(*os.File) {}
