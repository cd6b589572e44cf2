package batch

import (
	"context"
	"errors"
	"io"
)

// errParentEnded is why a clip of a batch is no longer wanted.
var errParentEnded = errors.New("the batch has ended")

// UntilParentEnds returns a context that ends when the batch which started this
// process does, also when that is killed: its end of the standard input is then
// closed. A signal from the kernel would do on Linux only, and comes once for every
// thread of the parent, where a second signal ends this program at once.
func UntilParentEnds(parent context.Context, stdin io.Reader) (context.Context, func()) {
	ctx, cancel := context.WithCancelCause(parent)
	go func() {
		io.Copy(io.Discard, stdin) // nothing is ever written to it
		cancel(errParentEnded)
	}()
	return ctx, func() { cancel(nil) }
}
