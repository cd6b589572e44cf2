//go:build linux

package extract

import (
	"context"
	"errors"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// children lists the processes whose parent is pid, but for those that have
// ended and only wait to be counted.
func children(t *testing.T, pid int) []int {
	t.Helper()
	stats, err := filepath.Glob("/proc/[0-9]*/stat")
	if err != nil {
		t.Fatal(err)
	}
	var list []int
	for _, path := range stats {
		line, err := os.ReadFile(path)
		if err != nil {
			continue
		}
		fields := strings.Fields(string(line[strings.LastIndexByte(string(line), ')')+1:]))
		if fields[1] == strconv.Itoa(pid) && fields[0] != "Z" {
			child, _ := strconv.Atoi(filepath.Base(filepath.Dir(path)))
			list = append(list, child)
		}
	}
	return list
}

// longClip is one that the decoder cannot finish while nobody reads.
func longClip(t *testing.T) string {
	return lavfi(t, "long.mp4", "-f", "lavfi", "-i", "color=s=320x180:r=24", "-frames:v", "480", "-c:v", "libx264", "-preset", "ultrafast")
}

// open starts a reading and takes two frames.
func open(t *testing.T, ctx context.Context, path string, o Options) (*Reader, *image.YCbCr) {
	t.Helper()
	r, err := Open(ctx, path, o)
	if err != nil {
		t.Fatal(err)
	}
	f := image.NewYCbCr(image.Rectangle{Max: r.Clip().Work}, image.YCbCrSubsampleRatio420)
	for range 2 {
		if err := r.Next(f); err != nil {
			t.Fatal(err)
		}
	}
	return r, f
}

func TestNothingIsLeftAfterClose(t *testing.T) {
	path := longClip(t)
	before := runtime.NumGoroutine()
	files, _ := os.ReadDir("/proc/self/fd")
	r, _ := open(t, context.Background(), path, Options{})
	if len(children(t, os.Getpid())) != 1 {
		t.Error("no decoder is running: the test sees nothing")
	}
	for range 2 {
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	}
	if left := children(t, os.Getpid()); len(left) != 0 {
		t.Errorf("left running: %v", left)
	}
	for range 100 {
		if runtime.NumGoroutine() <= before {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	if n := runtime.NumGoroutine(); n > before {
		t.Errorf("%d goroutines before, %d after", before, n)
	}
	if now, _ := os.ReadDir("/proc/self/fd"); len(now) > len(files) {
		t.Errorf("%d open files before, %d after", len(files), len(now))
	}
}

func TestCancelEndsTheReading(t *testing.T) {
	stop := errors.New("the user gave up")
	ctx, cancel := context.WithCancelCause(context.Background())
	r, f := open(t, ctx, longClip(t), Options{})
	defer r.Close()
	cancel(stop)
	err := r.Next(f)
	for i := 0; i < 2*readAhead && err == nil; i++ {
		err = r.Next(f)
	}
	if !errors.Is(err, stop) {
		t.Errorf("after cancel: %v", err)
	}
	r.Close()
	if left := children(t, os.Getpid()); len(left) != 0 {
		t.Errorf("left running: %v", left)
	}
}

func TestKilledOrStoppedDecoderIsAnError(t *testing.T) {
	path := longClip(t)
	for _, signal := range []syscall.Signal{syscall.SIGKILL, syscall.SIGTERM, syscall.SIGSTOP} {
		r, _ := open(t, context.Background(), path, Options{Limits: Limits{Stall: 200 * time.Millisecond}})
		for _, pid := range children(t, os.Getpid()) {
			if err := syscall.Kill(pid, signal); err != nil {
				t.Fatal(err)
			}
		}
		err := drain(r)
		var decode *DecodeError
		if !errors.As(err, &decode) || HintOf(err) == "" {
			t.Errorf("%v: %v", signal, err)
		}
		r.Close()
	}
	if left := children(t, os.Getpid()); len(left) != 0 {
		t.Errorf("left running: %v", left)
	}
}

// readerHelper is set for a copy of the test program that only reads.
const readerHelper = "HOLDFAST_TEST_READ"

func TestDecoderDiesWithItsParent(t *testing.T) {
	if path := os.Getenv(readerHelper); path != "" {
		open(t, context.Background(), path, Options{})
		fmt.Println("reading")
		time.Sleep(time.Minute)
		return
	}
	cmd := exec.Command(os.Args[0], "-test.run=^TestDecoderDiesWithItsParent$")
	cmd.Env = append(os.Environ(), readerHelper+"="+longClip(t))
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := out.Read(make([]byte, 7)); err != nil {
		t.Fatal(err)
	}
	decoders := children(t, cmd.Process.Pid)
	if len(decoders) != 1 {
		t.Fatalf("decoders %v", decoders)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	for range 200 {
		if state, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", decoders[0])); err != nil || strings.Contains(string(state), ") Z ") {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Error("the decoder lives on")
}
