package main

import (
	"os"
	"os/exec"
	"runtime"
	"testing"
)

// The memory of this process with a child is that of both.
func TestResidentTree(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("memory is read from Linux's /proc")
	}
	if _, err := os.Stat("/proc/thread-self/children"); err != nil {
		t.Skip("this kernel does not list children")
	}
	child := exec.Command("cat")
	in, err := child.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	defer child.Wait()
	defer in.Close()
	theirs := resident(child.Process.Pid)
	if theirs <= 0 {
		t.Fatalf("a running child holds %d bytes", theirs)
	}
	own, tree := resident(os.Getpid()), residentTree(os.Getpid())
	// Ours may change between the two looks; by no more than half, surely.
	if tree < own/2+theirs {
		t.Errorf("this process holds %d, its child %d, both %d", own, theirs, tree)
	}
	if residentTree(1<<30) != 0 {
		t.Error("a process that is not there holds memory")
	}
}
