package batch

import (
	"fmt"
	"os"
	"runtime"
	"strconv"
	"strings"
)

// clipMemory is what the processes of one clip take at their peak, in bytes, by
// how large the pictures are that they measure: measured at 3840 by 2160, the
// largest that is usual, and rounded up. Smaller clips take less.
var clipMemory = map[string]int64{"quick": 500e6, "": 700e6, "careful": 1000e6}

// memoryShare is how much of the memory that is free now a batch may take: the
// rest of the machine goes on living.
const memoryShare = 0.8

// Jobs is how many clips can be measured at a time: one a processor, as far as
// there is memory for them, and one at least. care is "quick", "careful" or empty.
func Jobs(care string) int {
	jobs := runtime.GOMAXPROCS(0)
	if free, ok := freeMemory(); ok {
		jobs = min(jobs, int(memoryShare*float64(free)/float64(clipMemory[care])))
	}
	return max(jobs, 1)
}

// freeMemory is how much memory can be had, in bytes, by Linux's own reckoning and
// by the limit of the control group (cgroup v2) that the process is in.
func freeMemory() (bytes int64, ok bool) {
	bytes, ok = available("/proc/meminfo")
	most, err1 := number64("/sys/fs/cgroup/memory.max")
	now, err2 := number64("/sys/fs/cgroup/memory.current")
	if err1 == nil && err2 == nil && (!ok || most-now < bytes) {
		return max(most-now, 0), true
	}
	return bytes, ok
}

// available reads MemAvailable.
func available(file string) (bytes int64, ok bool) {
	text, err := os.ReadFile(file)
	if err != nil {
		return 0, false
	}
	for line := range strings.Lines(string(text)) {
		var kilobytes int64
		if n, _ := fmt.Sscanf(line, "MemAvailable: %d kB", &kilobytes); n == 1 {
			return kilobytes << 10, true
		}
	}
	return 0, false
}

// number64 reads a file that holds a number; "max" is none.
func number64(file string) (int64, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return 0, err
	}
	return strconv.ParseInt(strings.TrimSpace(string(text)), 10, 64)
}
