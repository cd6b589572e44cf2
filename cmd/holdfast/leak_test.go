package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

// runsVariable sets how many runs TestRunsLeakNothing makes; scripts/runs does.
const runsVariable = "HOLDFAST_RUNS"

// keptGrowth is how much more memory a process may hold after a hundred runs or
// more than after the first few, in MB: heaps of two languages settle slowly.
const keptGrowth = 64

// Run after run in one process, good, damaged, refused and stopped at a limit: no
// child, handle, goroutine or file is left, nor, after many, memory.
func TestRunsLeakNothing(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("what a process holds is looked up in /proc")
	}
	runs := 4
	if n, err := strconv.Atoi(os.Getenv(runsVariable)); err == nil {
		runs = n
	}
	dir, temp, out := t.TempDir(), t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", temp)
	for _, line := range []string{
		"-f lavfi -i mandelbrot=s=192x108:r=24:start_scale=0.3 -f lavfi -i sine -frames:v 72 -shortest -c:v libx264 -preset ultrafast -bf 2 -c:a aac good.mp4",
		"-i good.mp4 -frames:v 18 -c:v libx264 -preset ultrafast -bf 2 -an hurt.mp4",
		"-i good.mp4 -vn sound.m4a",
	} {
		ffmpegIn(t, dir, strings.Fields(line)...)
	}
	scratch(t, filepath.Join(dir, "hurt.mp4"))
	kinds := []struct {
		args []string
		code int
	}{
		{[]string{"--overwrite", "--to", "18", "--out", out, "good.mp4"}, exitDone},
		{[]string{"--overwrite", "--out", out, "hurt.mp4"}, exitDone},
		{[]string{"--overwrite", "--out", out, "sound.m4a"}, exitInput},
		// Here the decoder still has more to give than its pipe holds.
		{[]string{"--overwrite", "--max-duration", "250ms", "--out", out, "good.mp4"}, exitDecode},
	}
	run := func(i int) {
		k := kinds[i%len(kinds)]
		args := append([]string{"sheet", "--quiet"}, k.args...)
		args[len(args)-1] = filepath.Join(dir, args[len(args)-1])
		if code, _, errs := runFor(args...); code != k.code {
			t.Fatalf("run %d, %q: exit %d, want %d: %s", i+1, k.args, code, k.code, errs)
		}
	}
	for i := range kinds {
		run(i)
	}
	before := held(t)
	for i := range runs {
		run(i)
	}
	after := held(t)
	for until := time.Now().Add(patience); after.counts() != before.counts() && time.Now().Before(until); after = held(t) {
		time.Sleep(10 * time.Millisecond)
	}
	t.Logf("after %d runs more than before: %v, now %v", runs, before, after)
	if after.counts() != before.counts() {
		t.Errorf("the process holds %v, held %v", after, before)
	}
	if runs >= 100 && after.memory-before.memory > keptGrowth {
		t.Errorf("the process has grown from %d to %d MB", before.memory, after.memory)
	}
	wantEntries(t, temp)
	wantEntries(t, out, "good", "hurt")
}

// holding is what a process holds.
type holding struct{ handles, children, goroutines, memory int }

func (h holding) String() string {
	return fmt.Sprintf("%d handles, %d children, %d goroutines, %d MB", h.handles, h.children, h.goroutines, h.memory)
}

// counts are the numbers that must not grow at all.
func (h holding) counts() [3]int { return [3]int{h.handles, h.children, h.goroutines} }

// held looks at this process.
func held(t *testing.T) (h holding) {
	t.Helper()
	runtime.GC()
	handles, err := os.ReadDir("/proc/self/fd")
	if err != nil {
		t.Fatal(err)
	}
	lists, err := filepath.Glob("/proc/self/task/*/children")
	if err != nil {
		t.Fatal(err)
	}
	for _, list := range lists {
		text, _ := os.ReadFile(list) // a thread may have ended
		h.children += len(strings.Fields(string(text)))
	}
	statm, err := os.ReadFile("/proc/self/statm")
	if err != nil {
		t.Fatal(err)
	}
	pages, err := strconv.Atoi(strings.Fields(string(statm))[1]) // resident; proc(5)
	if err != nil {
		t.Fatal(err)
	}
	h.handles, h.goroutines, h.memory = len(handles), runtime.NumGoroutine(), pages*os.Getpagesize()>>20
	return h
}

// wantEntries holds a folder to what it should hold.
func wantEntries(t *testing.T, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if fmt.Sprint(names) != fmt.Sprint(want) {
		t.Errorf("%s holds %q, want %q", filepath.Base(dir), names, want)
	}
}
