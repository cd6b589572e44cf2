package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// residentTree is the resident memory of a process and all its descendants in
// bytes, by Linux's /proc: 0 where there is none, or on another system. Pages
// that several share, such as those of libraries, count for each.
func residentTree(pid int) int64 {
	sum := resident(pid)
	lists, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/children", pid))
	for _, name := range lists {
		text, err := os.ReadFile(name)
		if err != nil {
			continue // the thread is gone
		}
		for _, field := range strings.Fields(string(text)) {
			if child, err := strconv.Atoi(field); err == nil {
				sum += residentTree(child)
			}
		}
	}
	return sum
}

// resident reads the second number of statm, resident pages.
func resident(pid int) int64 {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/statm", pid))
	if err != nil {
		return 0
	}
	fields := strings.Fields(string(text))
	if len(fields) < 2 {
		return 0
	}
	pages, err := strconv.ParseInt(fields[1], 10, 64)
	if err != nil {
		return 0
	}
	return pages * int64(os.Getpagesize())
}
