package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// killed WHAT COMMAND...: something is killed while the command works.
//
//	killed program COMMAND...      the program itself, while its child decodes; no child stays
//	killed decoder COMMAND...      its child; exit 5, one error line, nothing printed
//	killed writing DIR COMMAND...  the program, once an unfinished folder is in DIR; it stays there
func killed(ts *testscript.TestScript, neg bool, args []string) {
	what, args := args[0], args[1:]
	var place string
	if what == "writing" {
		place, args = ts.MkAbs(args[0]), args[1:]
	}
	cmd := exec.Command(args[0], args[1:]...)
	cmd.Dir = ts.MkAbs(".")
	out, said := new(strings.Builder), new(strings.Builder)
	cmd.Stdout, cmd.Stderr = out, said
	ts.Check(cmd.Start())
	switch what {
	case "program":
		children := waitForDecoder(cmd.Process.Pid)
		ts.Check(cmd.Process.Kill())
		cmd.Wait()
		if len(children) == 0 {
			ts.Fatalf("no child was seen to run")
		}
		wantGone(ts, children)
	case "decoder":
		for _, pid := range waitForDecoder(cmd.Process.Pid) {
			ts.Check(syscall.Kill(pid, syscall.SIGKILL))
		}
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) || exit.ExitCode() != exitDecode || !twoLines(said.String()) || out.Len() > 0 {
			ts.Fatalf("ended with %v; printed %q, said %q", err, out, said)
		}
	case "writing":
		left := waitForUnfinished(place)
		ts.Check(cmd.Process.Kill())
		cmd.Wait()
		if left == 0 {
			ts.Fatalf("no unfinished folder was seen; said %s", said)
		}
		if leftovers, _ := filepath.Glob(filepath.Join(place, ".holdfast-*")); len(leftovers) == 0 {
			ts.Fatalf("the kill came too late to leave anything")
		}
	}
}

// waitForDecoder returns the child that decodes; one that only tells its
// version does not count.
func waitForDecoder(parent int) []int {
	for until := time.Now().Add(patience); time.Now().Before(until); time.Sleep(time.Millisecond) {
		for _, pid := range waitForChild(parent) {
			if line, _ := os.ReadFile(fmt.Sprintf("/proc/%d/cmdline", pid)); strings.Contains(string(line), "rawvideo") {
				return []int{pid}
			}
		}
	}
	return nil
}

// patience is how long is waited for what must happen soon.
const patience = 20 * time.Second

// waitForUnfinished waits until a folder is being filled.
func waitForUnfinished(place string) int {
	for until := time.Now().Add(patience); time.Now().Before(until); time.Sleep(time.Millisecond) {
		if found, _ := filepath.Glob(filepath.Join(place, ".holdfast-*")); len(found) > 0 {
			return len(found)
		}
	}
	return 0
}

// wantGone waits until none of the processes runs any more.
func wantGone(ts *testscript.TestScript, pids []int) {
	for until := time.Now().Add(patience); ; time.Sleep(10 * time.Millisecond) {
		running := 0
		for _, pid := range pids {
			if alive(pid) {
				running++
			}
		}
		switch {
		case running == 0:
			return
		case time.Now().After(until):
			ts.Fatalf("%d children outlive the program", running)
		}
	}
}
