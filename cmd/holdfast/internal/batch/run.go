package batch

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"golang.org/x/sync/errgroup"
	"golang.org/x/sys/unix"

	"holdfast/cmd/holdfast/internal/whole"
	"holdfast/extract"
)

// A Run measures the clips of a plan, or of a share of it.
type Run struct {
	Program string // the sheet command is that of this file
	Called  string // how the program is called: its argument 0
	Folder  string // of the batch
	Share   Share
	Jobs    int // clips measured at a time, 1 or more
	Plan    *Plan
	Told    func(Outcome) // is called for one clip after the other; may be nil
}

// An Outcome is what came of a clip.
type Outcome struct {
	Clip
	Failed  *Failure // nil: it has results
	Earlier bool     // they are those of an earlier run
}

// Words says what came of a clip, for people.
func (o Outcome) Words() string {
	switch {
	case o.Failed != nil:
		return o.Failed.Error
	case o.Earlier:
		return "done before"
	}
	return "done"
}

// ErrRunning is returned where another run writes to the same place.
var ErrRunning = errors.New("another run is at work in this folder")

// Clips is how many clips are to be measured.
func (r *Run) Clips() int { return len(r.Share.of(r.Plan.work())) }

// Do measures what is not done yet, several clips at a time. Clips that fail are
// outcomes and no errors. Stopped, it leaves nothing half made, and a run after it
// goes on.
func (r *Run) Do(ctx context.Context) error {
	folder := r.Share.folder(r.Folder)
	if err := r.Plan.write(folder); err != nil {
		return err
	}
	lock, err := hold(folder)
	if err != nil {
		return err
	}
	defer lock.Close()
	clips := r.Share.of(r.Plan.work())
	outcomes := make(chan Outcome)
	group, within := errgroup.WithContext(ctx)
	group.SetLimit(r.Jobs + 1) // and the one that hands them out
	group.Go(func() error {
		for _, c := range clips {
			if within.Err() != nil {
				return context.Cause(within)
			}
			group.Go(func() error {
				o, err := r.one(within, folder, c)
				if err != nil {
					return err
				}
				select {
				case outcomes <- o:
					return nil
				case <-within.Done():
					return context.Cause(within)
				}
			})
		}
		return nil
	})
	go func() {
		group.Wait() // its error is asked for below
		close(outcomes)
	}()
	for o := range outcomes {
		if r.Told != nil {
			r.Told(o)
		}
	}
	return group.Wait()
}

// one measures a clip, unless that is done.
func (r *Run) one(ctx context.Context, folder string, c Clip) (Outcome, error) {
	if failed, ok := r.Plan.done(ctx, folder, c); ok {
		return Outcome{c, failed, true}, nil
	}
	failed := r.measure(ctx, folder, c)
	if ctx.Err() != nil {
		return Outcome{}, context.Cause(ctx)
	}
	if failed == nil {
		return Outcome{Clip: c}, forgetFailure(folder, c.Name)
	}
	if sum, err := extract.SHA256(ctx, c.Path); err == nil {
		failed.SHA256 = sum
	}
	// What an earlier run made of it, or of another content, no longer holds.
	if err := os.RemoveAll(filepath.Join(folder, c.Name)); err != nil {
		return Outcome{}, err
	}
	return Outcome{Clip: c, Failed: failed}, failed.write(folder, c.Name)
}

// stopDelay is how long a clip's process may take to leave nothing behind once it
// is told to stop.
const stopDelay = 10 * time.Second

// measure runs the sheet command on a clip; nil: it has results now.
func (r *Run) measure(ctx context.Context, folder string, c Clip) *Failure {
	args := append([]string{"sheet", "--quiet", "--overwrite", "--out", folder, "--called", c.Name, "--" + RecordFlag, r.Plan.Stamp}, r.Plan.Options...)
	cmd := exec.CommandContext(ctx, r.Program, append(args, "--", c.Path)...)
	cmd.Args[0] = r.Called
	var said strings.Builder
	cmd.Stderr = &said
	cmd.Cancel = func() error { return cmd.Process.Signal(syscall.SIGTERM) }
	cmd.WaitDelay = stopDelay
	// In a group of its own: Ctrl-C reaches only us, and we tell it.
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	_, err := cmd.StdinPipe() // ends with us, however that is: see UntilParentEnds
	if err == nil {
		err = cmd.Run()
	}
	if err == nil {
		return nil
	}
	f := &Failure{Path: c.Path, Stamp: r.Plan.Stamp, Exit: -1}
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.Exited() {
		f.Exit = exit.ExitCode()
	}
	f.Error, f.Hint = complaint(said.String())
	if f.Error == "" {
		f.Error = fmt.Sprintf("the measuring ended: %v", err)
	}
	return f
}

// complaint finds the line that says what is wrong, and the hint after it.
func complaint(said string) (wrong, hint string) {
	for line := range strings.Lines(said) {
		line = strings.TrimSpace(line)
		if text, ok := strings.CutPrefix(line, "holdfast: "); ok {
			wrong = text
		} else if text, ok := strings.CutPrefix(line, "hint: "); ok {
			hint = text
		}
	}
	return wrong, hint
}

// hold locks a folder for as long as the file is open; the kernel lets go of it
// with the process, however that ends.
func hold(folder string) (*os.File, error) {
	d, err := os.Open(folder)
	if err != nil {
		return nil, &whole.Error{Path: folder, Err: err}
	}
	if err := unix.Flock(int(d.Fd()), unix.LOCK_EX|unix.LOCK_NB); err != nil {
		d.Close()
		return nil, &whole.Error{Path: folder, Err: ErrRunning}
	}
	return d, nil
}
