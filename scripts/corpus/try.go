//go:build linux

package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"
)

// input is one line of the manifest.
type input struct {
	name   string // as the manifest has it, percent-encoded
	path   string
	class  string
	expect string
}

func readManifest(root string) ([]input, error) {
	f, err := os.Open(filepath.Join(root, "manifest.tsv"))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var inputs []input
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		fields := strings.Split(lines.Text(), "\t")
		if len(fields) != 4 || fields[0] == "path" {
			continue
		}
		path, err := url.PathUnescape(fields[0])
		if err != nil {
			return nil, err
		}
		inputs = append(inputs, input{fields[0], filepath.Join(root, "corpus", path), fields[1], fields[2]})
	}
	return inputs, lines.Err()
}

// outcome is what a run came to.
type outcome struct {
	code           int
	signal         syscall.Signal // that ended it, or 0
	hung           bool
	stdout, stderr string
	took           time.Duration
	memory         int64    // of the largest process, MB
	orphans        int      // processes left running
	results        []string // folders in the output folder
	strays         []string // anything else that appeared
}

// try runs the program on one input, in a folder of its own with a temporary
// folder of its own.
func try(o options, in input, place string) (outcome, error) {
	out, temp, here := filepath.Join(place, "out"), filepath.Join(place, "temp"), filepath.Join(place, "here")
	if err := os.RemoveAll(place); err != nil {
		return outcome{}, err
	}
	for _, dir := range []string{out, temp, here} {
		if err := os.MkdirAll(dir, 0o777); err != nil {
			return outcome{}, err
		}
	}
	got := execute(o, here, temp, "sheet", "--as", "json", "--out", out, "--", in.path)
	got.orphans = reap()
	results, err := os.ReadDir(out)
	if err != nil {
		return outcome{}, err
	}
	for _, e := range results {
		got.results = append(got.results, e.Name())
	}
	for _, dir := range []string{temp, here, place} {
		entries, err := os.ReadDir(dir)
		if err != nil {
			return outcome{}, err
		}
		for _, e := range entries {
			if dir != place || e.Name() != "out" && e.Name() != "temp" && e.Name() != "here" {
				got.strays = append(got.strays, e.Name())
			}
		}
	}
	return got, nil
}

// execute runs the program with a wall clock. What it says comes through
// files, so that a process left behind cannot hold this one up.
func execute(o options, here, temp string, args ...string) outcome {
	ctx, cancel := context.WithTimeout(context.Background(), o.limit)
	defer cancel()
	var stdout, stderr bytes.Buffer
	cmd := exec.CommandContext(ctx, o.program, args...)
	cmd.Dir, cmd.Stdout, cmd.Stderr = here, &stdout, &stderr
	cmd.Env = append(os.Environ(), "TMPDIR="+temp)
	cmd.WaitDelay = 2 * time.Second
	started := time.Now()
	err := cmd.Run()
	got := outcome{stdout: stdout.String(), stderr: stderr.String(), took: time.Since(started), hung: ctx.Err() != nil}
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		got.code = -1
		got.stderr = err.Error()
		return got
	}
	status := cmd.ProcessState.Sys().(syscall.WaitStatus)
	if got.code = status.ExitStatus(); status.Signaled() {
		got.signal = status.Signal()
	}
	if usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		got.memory = usage.Maxrss >> 10
	}
	return got
}

// reap ends and counts the processes that were left to us. One that has ended
// by itself is no orphan.
func reap() (running int) {
	for {
		pid, err := syscall.Wait4(-1, nil, syscall.WNOHANG, nil)
		switch {
		case err != nil:
			return running
		case pid == 0: // there are some, and none has ended
			for _, child := range children() {
				running++
				syscall.Kill(child, syscall.SIGKILL)
				syscall.Wait4(child, nil, 0, nil)
			}
		}
	}
}
