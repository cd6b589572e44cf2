package extract

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"time"
)

// readAhead is how many frames are decoded ahead of the one being measured:
// enough to even out frames that take longer, and a bound on memory.
const readAhead = 4

// picture is one decoded frame with its time.
type picture struct {
	img  *image.YCbCr
	pix  []byte // all of img, as ffmpeg writes it, and alpha
	over []byte // alpha; empty without it
	time frameTime
	tb   timeBase // of time
}

// newPicture makes a picture to fill, with a plane of alpha where wanted.
func newPicture(work image.Point, alpha bool) *picture {
	w, h, cw, ch := work.X, work.Y, (work.X+1)/2, (work.Y+1)/2
	y, cb, cr := w*h, w*h+cw*ch, w*h+2*cw*ch
	size := cr
	if alpha {
		size += w * h
	}
	pix := make([]byte, size)
	return &picture{pix: pix, over: pix[cr:], img: &image.YCbCr{
		Y: pix[:y:y], Cb: pix[y:cb:cb], Cr: pix[cb:cr:cr],
		YStride: w, CStride: cw,
		SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: image.Rect(0, 0, w, h),
	}}
}

// pump reads frames from a decoder in goroutines of its own into a ring of
// pictures. When nobody takes them, the pipe fills and the decoder waits.
type pump struct {
	child  *child
	kill   context.CancelFunc
	frames *os.File // our end of the pictures' pipe
	times  *os.File // our end of the frame times' pipe

	free chan *picture // pictures to fill
	full chan *picture // filled ones; closed at the end
	// Read after full is closed:
	err   error // what ended it, nil at the end of the clip
	clear bool  // pictures let through what is behind them
}

// startPump starts the decoder and the reading.
func startPump(ctx context.Context, d decoding, t tools) (*pump, error) {
	frames, framesEnd, err := os.Pipe()
	if err != nil {
		return nil, fmt.Errorf("make a pipe: %w", err)
	}
	times, timesEnd, err := os.Pipe()
	if err != nil {
		frames.Close()
		framesEnd.Close()
		return nil, fmt.Errorf("make a pipe: %w", err)
	}
	widenPipe(frames)
	childCtx, kill := context.WithCancel(ctx)
	cmd := d.command(childCtx, t)
	cmd.Stdout = framesEnd
	cmd.ExtraFiles = []*os.File{timesEnd}
	c, err := startChild(cmd, framesEnd, timesEnd)
	if err != nil {
		kill()
		frames.Close()
		times.Close()
		return nil, &ToolError{Tool: "ffmpeg", What: "does not start", Err: err}
	}
	p := &pump{
		child: c, kill: kill, frames: frames, times: times,
		// Conforming holds two pictures while the ring goes on.
		free: make(chan *picture, readAhead+2), full: make(chan *picture, readAhead+2),
	}
	for range cap(p.free) {
		p.free <- newPicture(d.work, d.alpha)
	}
	go p.run(ctx, d.limits.Stall)
	return p, nil
}

// run fills pictures until the clip or the context ends. The decoder may write the next
// frame before the time of the last, and a frame can be larger than a pipe holds, so
// frames and times are read side by side.
func (p *pump) run(ctx context.Context, stall time.Duration) {
	defer close(p.full)
	filled, done := make(chan *picture, cap(p.free)), make(chan struct{})
	var framesErr error
	go func() {
		defer close(filled)
		framesErr = p.readFrames(ctx, stallReader{p.frames, stall}, filled, done)
	}()
	p.err = p.readTimes(newTimeLines(stallReader{p.times, stall}), filled)
	if p.err != nil {
		close(done)
		if errors.Is(p.err, errStalled) {
			p.kill()
		}
	}
	p.frames.Close()
	for range filled { // until the reading of frames has ended as well
	}
	p.times.Close()
	if p.err == nil {
		p.err = framesErr
	}
}

// readFrames fills free pictures with frames, until there is no further one, and hands
// them on without their times. done says that nobody wants more.
func (p *pump) readFrames(ctx context.Context, frames io.Reader, filled chan<- *picture, done <-chan struct{}) error {
	for {
		var pic *picture
		select {
		case pic = <-p.free:
		case <-done:
			return nil
		case <-ctx.Done():
			return context.Cause(ctx)
		}
		n, err := io.ReadFull(frames, pic.pix)
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case errors.Is(err, errStalled):
			p.kill()
			return err
		case errors.Is(err, io.ErrUnexpectedEOF):
			return fmt.Errorf("frame cut off after %d of %d bytes: %w", n, len(pic.pix), err)
		case err != nil:
			return err
		}
		p.clear = overGrey(pic.img, pic.over) || p.clear
		filled <- pic // never blocks: there are no more pictures than places
	}
}

// readTimes gives frames their times and hands them out.
func (p *pump) readTimes(times *timeLines, filled <-chan *picture) error {
	for pic := range filled {
		var err error
		pic.time, err = times.next()
		pic.tb = times.tb
		if errors.Is(err, io.EOF) {
			return fmt.Errorf("frame times end early: %w", io.ErrUnexpectedEOF)
		}
		if err != nil {
			return err
		}
		p.full <- pic // never blocks either
	}
	return nil
}

// errStalled says that nothing came for Limits.Stall.
var errStalled = errors.New("no answer from the decoder")

// stallReader reads from a pipe, but not forever.
type stallReader struct {
	f     *os.File
	limit time.Duration
}

// afterSleep is how long a late pipe gets once more, in case it was not the
// decoder that slept but the whole machine.
const afterSleep = 2 * time.Second

func (s stallReader) Read(p []byte) (int, error) {
	for _, limit := range []time.Duration{s.limit, afterSleep} {
		if err := s.f.SetReadDeadline(deadline(limit)); err != nil {
			return 0, fmt.Errorf("set a deadline on a pipe: %w", err)
		}
		n, err := s.f.Read(p)
		if n > 0 || !errors.Is(err, os.ErrDeadlineExceeded) {
			return n, err
		}
	}
	return 0, errStalled
}

// deadline is the zero time, which means none, for limits switched off.
func deadline(limit time.Duration) time.Time {
	if limit >= time.Duration(noLimit) {
		return time.Time{}
	}
	return time.Now().Add(limit)
}
