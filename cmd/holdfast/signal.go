package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"syscall"
)

// An interruptError says which signal ended the work.
type interruptError struct{ signal syscall.Signal }

func (e interruptError) Error() string { return fmt.Sprintf("interrupted (%v)", e.signal) }

// untilSignal returns a context that the first interrupt, termination or
// hang-up signal cancels, with an interruptError as its cause. A second signal
// ends the program at once.
func untilSignal(parent context.Context) (context.Context, func()) {
	ctx, cancel := context.WithCancelCause(parent)
	caught := make(chan os.Signal, 1)
	signal.Notify(caught, syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP)
	go func() {
		select {
		case s := <-caught:
			cancel(interruptError{s.(syscall.Signal)})
		case <-ctx.Done():
		}
		signal.Stop(caught)
	}()
	return ctx, func() { cancel(nil) }
}
