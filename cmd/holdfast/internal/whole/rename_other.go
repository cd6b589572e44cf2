//go:build !linux

package whole

import "golang.org/x/sys/unix"

func atomicNew(from, to string) error { return unix.ENOSYS }

func atomicExchange(a, b string) error { return unix.ENOSYS }
