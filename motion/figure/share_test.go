package figure

import (
	"errors"
	"sync/atomic"
	"testing"
)

type counter struct {
	done         []atomic.Int32
	open, opened *atomic.Int32
	fails        int // frame that fails; -1: none
}

var errFrame = errors.New("no such frame")

func (c *counter) frame(t int) error {
	c.done[t].Add(1)
	if t == c.fails {
		return errFrame
	}
	return nil
}

func (c *counter) close() { c.open.Add(-1) }

func TestShareDoesEachFrameOnce(t *testing.T) {
	for _, n := range []int{0, 1, 2, 7, 300} {
		for _, fails := range []int{-1, n / 2} {
			var open, opened atomic.Int32
			done := make([]atomic.Int32, n)
			err := share(n, func() (hand, error) {
				open.Add(1)
				opened.Add(1)
				return &counter{done, &open, &opened, fails}, nil
			})
			if want := n > 0 && fails >= 0; (err != nil) != want {
				t.Errorf("%d frames, %d fails: error %v", n, fails, err)
			}
			if open.Load() != 0 || n > 0 && opened.Load() == 0 {
				t.Errorf("%d frames: %d of %d hands left open", n, open.Load(), opened.Load())
			}
			for i := range done {
				if k := done[i].Load(); fails < 0 && k != 1 || k > 1 {
					t.Errorf("%d frames: frame %d was done %d times", n, i, k)
				}
			}
		}
	}
	if err := share(3, func() (hand, error) { return nil, errFrame }); !errors.Is(err, errFrame) {
		t.Errorf("error %v", err)
	}
}
