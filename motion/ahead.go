package motion

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"

	"golang.org/x/sync/errgroup"

	"holdfast/motion/flow"
	"holdfast/motion/picture"
)

// lookAhead is how many frames are made ready beside the two that are being
// measured: enough to even out steps that take longer, and a bound on memory.
const lookAhead = 2

// A readyFrame is a frame with how everything went to it from the frame before.
type readyFrame struct {
	now   *picture.Picture
	field flow.Field // from the frame before; unset for the first, and where pictures are too small
}

// An ahead makes frames ready in a goroutine of its own, while those before them
// are measured.
type ahead struct {
	src  Source
	size image.Point
	dis  *flow.DIS // nil where the pictures are too small for flow
	free chan *readyFrame
	full chan *readyFrame // closed at the end of the clip, or when something failed
	all  []*readyFrame
}

func newAhead(src Source, size image.Point) (*ahead, error) {
	a := &ahead{src: src, size: size}
	a.free = make(chan *readyFrame, lookAhead+2)
	a.full = make(chan *readyFrame, lookAhead+2)
	for range cap(a.free) {
		p, err := picture.New(size.X, size.Y)
		if err != nil {
			a.close()
			return nil, err
		}
		f := &readyFrame{now: p}
		a.all = append(a.all, f)
		a.free <- f
	}
	if size.X >= flow.MinSide && size.Y >= flow.MinSide {
		var err error
		if a.dis, err = flow.NewDIS(flow.Fast); err != nil {
			a.close()
			return nil, err
		}
	}
	return a, nil
}

// close frees everything; no frame of it may be used after.
func (a *ahead) close() {
	for _, f := range a.all {
		f.now.Close()
	}
	if a.dis != nil {
		a.dis.Close()
	}
}

// each calls use with every frame in order, together with the one before, nil for
// the first. A frame is in use until the one after it has been.
func (a *ahead) each(ctx context.Context, use func(n int, before, now *readyFrame) error) error {
	group, within := errgroup.WithContext(ctx)
	group.Go(func() error {
		defer close(a.full)
		return a.fill(within)
	})
	group.Go(func() error {
		var before *readyFrame
		n := 0
		for now := range a.full {
			if err := context.Cause(ctx); err != nil {
				return err
			}
			if err := use(n, before, now); err != nil {
				return err
			}
			if before != nil {
				a.free <- before // never blocks: there are no more frames than places
			}
			before = now
			n++
		}
		return nil
	})
	return group.Wait()
}

// fill makes frames ready until there are no more.
func (a *ahead) fill(ctx context.Context) error {
	frame := image.NewYCbCr(image.Rectangle{Max: a.size}, image.YCbCrSubsampleRatio420)
	var before *readyFrame
	for n := 0; ; n++ {
		var f *readyFrame
		select {
		case f = <-a.free:
		case <-ctx.Done():
			return context.Cause(ctx)
		}
		err := a.src.Next(frame)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if err := a.ready(f, before, frame); err != nil {
			return fmt.Errorf("measure frame %d: %w", n, err)
		}
		before = f
		a.full <- f // never blocks
	}
}

// ready makes f of a frame and the one before.
func (a *ahead) ready(f, before *readyFrame, frame *image.YCbCr) error {
	if err := f.now.Set(frame); err != nil {
		return err
	}
	if before == nil || a.dis == nil {
		return nil
	}
	return a.dis.Calc(&f.field, before.now.Gray(), f.now.Gray())
}
