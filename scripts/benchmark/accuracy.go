package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime"

	"golang.org/x/sync/errgroup"
	"golang.org/x/term"

	"holdfast/motion/flow"
)

// accuracy runs the trials of a plan, one on each processor at a time, and
// prints how they came out.
func accuracy(ctx context.Context, c *command, stdout, stderr io.Writer) error {
	sets, err := chooseSets(c.set, stderr)
	if err != nil {
		return err
	}
	jobs, err := c.plan.jobs(sets)
	if err != nil {
		return err
	}
	// Each trial has a processor of its own.
	flow.SetThreads(1)
	trials, err := runAll(ctx, jobs, stderr)
	if err != nil {
		return err
	}
	if c.json != "" {
		if err := writeJSON(c.json, trials); err != nil {
			return err
		}
	}
	return reportAccuracy(stdout, trials, c.faults)
}

// runAll returns the trials in the order of the jobs.
func runAll(ctx context.Context, jobs []job, stderr io.Writer) ([]*trial, error) {
	trials := make([]*trial, len(jobs))
	g, ctx := errgroup.WithContext(ctx)
	g.SetLimit(runtime.NumCPU())
	shown := newCounter(stderr, len(jobs))
	defer shown.clear()
	for i := range jobs {
		g.Go(func() error {
			if err := context.Cause(ctx); err != nil {
				return err
			}
			t, err := jobs[i].run(ctx)
			// A scene keeps what it drew; many would fill the memory.
			jobs[i].film = nil
			trials[i] = t
			shown.step()
			return err
		})
	}
	return trials, g.Wait()
}

// A counter shows on a terminal how many trials are done.
type counter struct {
	w     io.Writer // nil where nobody looks
	of    int
	steps chan struct{}
	done  chan struct{}
}

func newCounter(w io.Writer, of int) *counter {
	c := &counter{of: of, steps: make(chan struct{}), done: make(chan struct{})}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		c.w = w
	}
	go c.run()
	return c
}

func (c *counter) run() {
	defer close(c.done)
	n := 0
	for range c.steps {
		n++
		if c.w != nil {
			fmt.Fprintf(c.w, "\r%d of %d clips", n, c.of)
		}
	}
	if c.w != nil {
		fmt.Fprintf(c.w, "\r%-40s\r", "")
	}
}

func (c *counter) step() { c.steps <- struct{}{} }

func (c *counter) clear() {
	close(c.steps)
	<-c.done
}
