package extract

import (
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"runtime"
	"time"
)

// waitDelay is how long a killed child's pipes may stay open.
const waitDelay = 2 * time.Second

// child is a running ffmpeg or ffprobe.
type child struct {
	tail tail
	done chan struct{} // closed when the process has been waited for
	err  error         // of Wait; read after done
}

// childEnv is all that a child gets to know. Variables such as FFREPORT would
// make it write files.
func childEnv() []string {
	return []string{
		"PATH=" + os.Getenv("PATH"), "LC_ALL=C", "AV_LOG_FORCE_NOCOLOR=1", "OPENBLAS_NUM_THREADS=1",
	}
}

// startChild starts cmd, which must come from exec.CommandContext, with the
// small environment, its error stream kept in a tail, in a process group of
// its own (so that Ctrl-C reaches only us, and we end the child ourselves) and,
// on Linux, with the request to die when we do. The files in theirs are the
// child's ends of pipes; they are closed here in any case.
func startChild(cmd *exec.Cmd, theirs ...*os.File) (*child, error) {
	c := &child{done: make(chan struct{})}
	cmd.Env = childEnv()
	cmd.Stderr = &c.tail
	cmd.WaitDelay = waitDelay
	cmd.SysProcAttr = childAttributes()
	started := make(chan error)
	go func() {
		// The kernel sends the parent-death signal when the thread that
		// started the child ends, so this one is kept until the child is gone.
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		err := cmd.Start()
		started <- err
		if err != nil {
			return
		}
		c.err = cmd.Wait()
		close(c.done)
	}()
	err := <-started
	for _, f := range theirs {
		f.Close()
	}
	if err != nil {
		return nil, err
	}
	return c, nil
}

// wait waits for the process to end and returns how it ended.
func (c *child) wait() error {
	<-c.done
	return c.err
}

// waitFor waits like wait, but kills a process that takes longer than limit
// to end by itself, and then returns errStalled.
func (c *child) waitFor(limit time.Duration, kill context.CancelFunc) error {
	timer := time.NewTimer(limit)
	defer timer.Stop()
	select {
	case <-c.done:
		return c.err
	case <-timer.C:
		kill()
		<-c.done
		return errStalled
	}
}

// exitAfterSignal is what ffmpeg exits with when a signal made it finish early.
const exitAfterSignal = 255

// stopped tells whether the process was ended by a signal, caught or not.
func (c *child) stopped() bool {
	var exit *exec.ExitError
	return errors.As(c.wait(), &exit) && (!exit.Exited() || exit.ExitCode() == exitAfterSignal)
}

// stream runs a program and gives its standard output to use. It returns the
// error of use first, then that of the program. The tail holds its complaints.
func stream(ctx context.Context, use func(io.Reader) error, path string, args ...string) (*tail, error) {
	return streamCommand(ctx, use, func(ctx context.Context) *exec.Cmd { return exec.CommandContext(ctx, path, args...) })
}

// streamCommand does the same with a command that is made under the context it gets.
func streamCommand(ctx context.Context, use func(io.Reader) error, command func(context.Context) *exec.Cmd) (*tail, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	ours, theirs, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer ours.Close()
	cmd := command(ctx)
	cmd.Stdout = theirs
	c, err := startChild(cmd, theirs)
	if err != nil {
		return nil, err
	}
	err = use(stallReader{ours, defaultStall})
	if err != nil {
		cancel()
	}
	waitErr := c.waitFor(defaultStall, cancel)
	if err == nil {
		err = waitErr
	}
	return &c.tail, err
}

// maxOutput bounds what output keeps, in bytes.
const maxOutput = 16 << 20

// output runs a program and returns its standard output.
func output(ctx context.Context, path string, args ...string) ([]byte, *tail, error) {
	var out []byte
	t, err := stream(ctx, func(r io.Reader) (err error) {
		out, err = io.ReadAll(io.LimitReader(r, maxOutput))
		return err
	}, path, args...)
	return out, t, err
}
