//go:build linux

package main

import (
	"encoding/binary"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"time"

	"golang.org/x/sys/unix"
)

// A watch sees connections to the port that hostile lists name, and openings
// of the files that they name.
type watch struct {
	listener net.Listener
	accepted atomic.Int64
	notify   int            // inotify's descriptor
	files    map[int]string // watch descriptor to path

	connections, opened int64 // over all inputs, for the report
}

func newWatch(o options) (*watch, error) {
	w := &watch{files: map[int]string{}}
	var err error
	if w.listener, err = net.Listen("tcp", net.JoinHostPort("127.0.0.1", o.port)); err != nil {
		return nil, err
	}
	go w.accept()
	if w.notify, err = unix.InotifyInit1(unix.IN_NONBLOCK | unix.IN_CLOEXEC); err != nil {
		return nil, err
	}
	forbidden, err := forbiddenFiles(o.made)
	if err != nil {
		return nil, err
	}
	for _, path := range forbidden {
		d, err := unix.InotifyAddWatch(w.notify, path, unix.IN_OPEN|unix.IN_ACCESS)
		if err != nil {
			return nil, fmt.Errorf("watch %s: %w", path, err)
		}
		w.files[d] = path
	}
	return w, w.prove(forbidden[0])
}

// proveTime is how long a connection may take to be seen on the machine itself.
const proveTime = 10 * time.Second

// prove opens a watched file and connects to the port: a watch that sees
// neither would make every run look clean.
func (w *watch) prove(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	f.Close()
	c, err := net.Dial("tcp", w.listener.Addr().String())
	if err != nil {
		return err
	}
	defer c.Close()
	for late := time.Now().Add(proveTime); w.accepted.Load() == 0 && time.Now().Before(late); {
		time.Sleep(time.Millisecond)
	}
	if w.accepted.Swap(0) != 1 || len(w.openings()) == 0 {
		return fmt.Errorf("the watch over connections and files sees nothing")
	}
	return nil
}

func (w *watch) accept() {
	for {
		c, err := w.listener.Accept()
		if err != nil {
			return
		}
		c.Close()
		w.accepted.Add(1)
	}
}

// forbiddenFiles are the canaries and the neighbours of hostile lists.
func forbiddenFiles(root string) ([]string, error) {
	canaries, err := filepath.Glob(filepath.Join(root, "canary", "*"))
	if err != nil || len(canaries) == 0 {
		return nil, fmt.Errorf("no canary files in %s: %v", root, err)
	}
	siblings, err := filepath.Glob(filepath.Join(root, "corpus", "12_playlist", "sibling.*"))
	return append(canaries, siblings...), err
}

// openings returns the watched files that were opened since it was last asked.
func (w *watch) openings() (paths []string) {
	buffer := make([]byte, 1<<16)
	seen := map[string]bool{}
	for {
		n, err := unix.Read(w.notify, buffer)
		if err != nil || n <= 0 {
			return paths
		}
		for at := 0; at+unix.SizeofInotifyEvent <= n; {
			path := w.files[int(int32(binary.NativeEndian.Uint32(buffer[at:])))]
			at += unix.SizeofInotifyEvent + int(binary.NativeEndian.Uint32(buffer[at+12:]))
			if !seen[path] {
				seen[path] = true
				paths = append(paths, path)
			}
		}
	}
}

// seen returns what the last input did that it must not. An input may open
// what it is itself a link to.
func (w *watch) seen(in input) (faults []string) {
	if n := w.accepted.Swap(0); n > 0 {
		w.connections += n
		faults = append(faults, fmt.Sprintf("made %d connections", n))
	}
	self, _ := filepath.EvalSymlinks(in.path)
	for _, path := range w.openings() {
		if path == self {
			continue
		}
		w.opened++
		faults = append(faults, "opened "+filepath.Base(path))
	}
	return faults
}

func (w *watch) close() {
	w.listener.Close()
	unix.Close(w.notify)
}

// children returns the processes whose parent this one is.
func children() (pids []int) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/self/task/%d/children", os.Getpid()))
	if err != nil {
		return nil
	}
	for _, field := range strings.Fields(string(text)) {
		if pid, err := strconv.Atoi(field); err == nil {
			pids = append(pids, pid)
		}
	}
	return pids
}
