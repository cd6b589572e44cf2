package figure

import (
	"runtime"
	"sync/atomic"

	"golang.org/x/sync/errgroup"
)

// mostHands bounds how many frames are looked at at once: each has memory of its
// own for it.
const mostHands = 8

// A hand does what there is to do for one frame at a time, with memory of its own.
// What it does for a frame must not depend on frames it did before.
type hand interface {
	frame(t int) error
	close()
}

// share has several hands do n frames, each the next that nobody has. The order
// is not known, so results go by frame.
func share(n int, newHand func() (hand, error)) error {
	var group errgroup.Group
	var next atomic.Int64
	for range min(runtime.GOMAXPROCS(0), mostHands, n) {
		group.Go(func() error {
			h, err := newHand()
			if h != nil {
				defer h.close()
			}
			if err != nil {
				return err
			}
			for t := int(next.Add(1)) - 1; t < n; t = int(next.Add(1)) - 1 {
				if err := h.frame(t); err != nil {
					return err
				}
			}
			return nil
		})
	}
	return group.Wait()
}
