package extract

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"time"
)

// Reader gives the frames of one clip in order. It is for one goroutine at a
// time, but Close may be called from another.
type Reader struct {
	ctx    context.Context
	cancel context.CancelCauseFunc
	timer  *time.Timer

	in   input
	o    Options
	clip Clip
	tm   timing
	pump *pump
	conf *conformer // nil when frames are passed through
	last int64      // last frame to give; noLimit: no such

	first  *picture // decoded by Open, to be given first
	index  int64    // of the next frame before trimming
	source int64    // source frames taken from the pump
	stored int64    // frames that the file holds the packets of
	sparse bool     // those cover all of the time that the container claims
	corner int64    // bytes of the first frame's corner
	resize int64    // source frame on which the size changed first; -1: none

	warnings []string
	err      error // what Next goes on returning
}

var errClosed = errors.New("the reader was closed")

// Open looks at a clip, starts to decode it and waits for its first frame.
// path names a file, or a sequence by a pattern ("shot.%04d.png",
// "shot.[1001-1096].png"); a file of that very name goes first. The context
// rules the whole reading, not only Open. The reader must be closed.
//
// The errors are those in errors.go; a clip without frames fails here.
func Open(ctx context.Context, path string, o Options) (*Reader, error) {
	o, err := o.withDefaults()
	if err != nil {
		return nil, err
	}
	r := &Reader{o: o, last: noLimit, resize: -1}
	if last, ok := o.last(); ok {
		r.last = last
	}
	r.ctx, r.cancel = context.WithCancelCause(ctx)
	if o.WallClock < time.Duration(noLimit) {
		limit := &LimitError{
			Name: SafeName(path), Limit: "WallClock", Got: "it takes longer", Max: o.WallClock.String() + " of running",
		}
		r.timer = time.AfterFunc(o.WallClock, func() { r.cancel(limit) })
	}
	if err := r.open(path); err != nil {
		r.Close()
		return nil, err
	}
	return r, nil
}

// Read opens a clip and gives it to use. When the clip turns out to be damaged
// it is opened again with one decoder thread and use is called once more,
// with a fresh reader: whatever it gathered from the first must be dropped.
func Read(ctx context.Context, path string, o Options, use func(*Reader) error) error {
	err := readOnce(ctx, path, o, use)
	var damaged *DamagedError
	if errors.As(err, &damaged) && !o.SingleThread {
		o.SingleThread = true
		err = readOnce(ctx, path, o, use)
	}
	return err
}

func readOnce(ctx context.Context, path string, o Options, use func(*Reader) error) error {
	r, err := Open(ctx, path, o)
	if err != nil {
		return err
	}
	defer r.Close()
	return use(r)
}

func (r *Reader) open(path string) error {
	t, err := findTools(r.ctx)
	if err != nil {
		return err
	}
	if r.in, err = openInput(r.ctx, path, r.o.FPS); err != nil {
		return err
	}
	if err := checkBytes(r.in, r.o.Limits); err != nil {
		return err
	}
	d, err := r.plan(t)
	if err != nil {
		return err
	}
	if r.pump, err = startPump(r.ctx, d, t); err != nil {
		return err
	}
	r.first, err = r.decoded()
	if errors.Is(err, io.EOF) {
		err = r.ending()
		if errors.Is(err, io.EOF) {
			err = inputError(r.in.path, NoFrames, "")
		}
	}
	return err
}

// Clip tells what the clip is.
func (r *Reader) Clip() Clip { return r.clip }

// Next fills dst, of size Clip().Work and 4:2:0, with the next frame. io.EOF
// comes after the last one; any other error means that the clip cannot be
// measured. A *DamagedError asks to read again with Options.SingleThread.
func (r *Reader) Next(dst *image.YCbCr) error {
	if r.err != nil {
		return r.err
	}
	if err := checkFrame(dst, r.clip.Work); err != nil {
		return err
	}
	for {
		pic, err := r.conformed()
		if err != nil {
			r.err = err
			return err
		}
		use := r.index >= r.o.From
		if use {
			copyFrame(dst, pic.img)
		}
		r.done(pic)
		r.index++
		if use {
			return nil
		}
	}
}

// checkFrame refuses frames that do not hold a picture of the given size.
func checkFrame(f *image.YCbCr, size image.Point) error {
	if f == nil || f.Rect.Size() != size || f.SubsampleRatio != image.YCbCrSubsampleRatio420 {
		return fmt.Errorf("frame is not 4:2:0 of %d×%d pixels", size.X, size.Y)
	}
	cw, ch := (size.X+1)/2, (size.Y+1)/2
	chroma := (ch-1)*f.CStride + cw
	if f.YStride < size.X || f.CStride < cw || len(f.Y) < (size.Y-1)*f.YStride+size.X ||
		len(f.Cb) < chroma || len(f.Cr) < chroma {
		return fmt.Errorf("frame of %d×%d pixels is too small for its rows", size.X, size.Y)
	}
	return nil
}

// copyFrame copies a tight picture into one of the same size with any stride.
func copyFrame(dst, src *image.YCbCr) {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	copyPlane(dst.Y, dst.YStride, src.Y, w, h)
	copyPlane(dst.Cb, dst.CStride, src.Cb, (w+1)/2, (h+1)/2)
	copyPlane(dst.Cr, dst.CStride, src.Cr, (w+1)/2, (h+1)/2)
}

func copyPlane(dst []byte, stride int, src []byte, w, h int) {
	if stride == w {
		copy(dst, src[:w*h])
		return
	}
	for y := range h {
		copy(dst[y*stride:y*stride+w], src[y*w:])
	}
}

// conformed returns the next frame at the clip's rate, before trimming.
func (r *Reader) conformed() (*picture, error) {
	if r.index > r.last {
		return nil, r.drain()
	}
	pic, err := r.decodedOrConformed()
	if errors.Is(err, io.EOF) {
		return nil, r.ending()
	}
	if err == nil {
		err = r.checkLimits()
	}
	return pic, err
}

func (r *Reader) decodedOrConformed() (*picture, error) {
	if r.conf != nil {
		return r.conf.frame()
	}
	return r.take()
}

// done hands a picture back that was passed through.
func (r *Reader) done(pic *picture) {
	if r.conf == nil {
		r.pump.free <- pic
	}
}

// take returns the next source frame, first the one that Open waited for.
func (r *Reader) take() (*picture, error) {
	if pic := r.first; pic != nil {
		r.first = nil
		return pic, nil
	}
	return r.decoded()
}

// decoded waits for the next frame from the decoder. io.EOF: it has ended,
// well or not.
func (r *Reader) decoded() (*picture, error) {
	if !r.o.SingleThread && r.pump.child.tail.any() {
		return nil, &DamagedError{Name: r.in.name}
	}
	var pic *picture
	var ok bool
	select {
	case pic, ok = <-r.pump.full:
	case <-r.ctx.Done():
	}
	if r.ctx.Err() != nil {
		return nil, context.Cause(r.ctx)
	}
	if !ok {
		return nil, io.EOF
	}
	if err := r.watchSize(pic); err != nil {
		return nil, err
	}
	if r.conf != nil && r.source == 0 {
		r.conf.tb = pic.tb
	}
	r.source++
	return pic, nil
}

// watchSize notes when the stored size changes on the way.
func (r *Reader) watchSize(pic *picture) error {
	switch {
	case r.source == 0:
		r.corner = pic.time.bytes
	case pic.time.bytes != r.corner && r.in.sequence != nil:
		return &SizeChangeError{Name: r.in.name, Number: r.in.sequence.first + r.source}
	case pic.time.bytes != r.corner && r.resize < 0:
		r.resize = r.source
	}
	return nil
}

// checkLimits is asked of frame index when it is there: a clip that ends at
// the limit is within it.
func (r *Reader) checkLimits() error {
	if r.index >= r.o.Frames {
		return framesLimit(r.in, r.o.Limits)
	}
	if float64(r.index)/r.clip.Rate.Float() >= r.o.Duration.Seconds() {
		return &LimitError{
			Name: r.in.name, Limit: "Duration", Got: "it lasts longer", Max: r.o.Duration.String() + " of clip",
		}
	}
	return nil
}

// drain reads what the decoder still has after the last frame asked for, so
// that damage is reported or not whatever the timing.
func (r *Reader) drain() error {
	for {
		pic, err := r.take()
		if errors.Is(err, io.EOF) {
			return r.ending()
		}
		if err != nil {
			return err
		}
		r.pump.free <- pic
	}
}

// Warnings returns what a reviewer should know of how the clip was read, one
// line each. It is complete once Next has returned io.EOF.
func (r *Reader) Warnings() []string { return r.warnings }

// Close ends the decoder and waits until nothing of it is left. It may be
// called at any time and more than once.
func (r *Reader) Close() error {
	r.cancel(errClosed)
	if r.timer != nil {
		r.timer.Stop()
	}
	if r.pump != nil {
		_ = r.pump.child.wait()
		for range r.pump.full {
		}
		r.pump.kill()
	}
	return nil
}
