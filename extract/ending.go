package extract

import (
	"context"
	"errors"
	"fmt"
	"io"
)

// ending judges how the decoder ended, once its frames are used up: io.EOF
// when what came can be used, with the last warnings added.
func (r *Reader) ending() error {
	waitErr := r.pump.child.waitFor(r.o.Stall, r.pump.kill)
	if r.ctx.Err() != nil {
		return context.Cause(r.ctx)
	}
	switch {
	case errors.Is(r.pump.err, errStalled) || errors.Is(waitErr, errStalled):
		return r.decodeError("the decoder gave no answer", r.pump.err)
	case r.pump.child.stopped():
		return r.decodeError("the decoder was killed", waitErr)
	case !r.o.SingleThread && r.pump.child.tail.any():
		return &DamagedError{Name: r.in.name}
	case r.pump.err != nil:
		return r.decodeError("its answer broke off", r.pump.err)
	case r.source == 0:
		return inputError(r.in.path, NoFrames, "")
	case waitErr != nil && !r.pump.child.tail.any():
		return r.decodeError("the decoder failed", waitErr)
	case r.index <= r.o.From && r.o.From > 0:
		return inputError(r.in.path, PastEnd, fmt.Sprintf("it has %d", r.index))
	}
	r.warnOfEnd()
	return io.EOF
}

func (r *Reader) decodeError(what string, err error) error {
	// A child that we end says so by a signal; closing tells it apart.
	r.cancel(errClosed)
	return &DecodeError{Name: r.in.name, What: what, Frame: r.source, Log: r.pump.child.tail.text(), Err: err}
}

// warnOfEnd adds what only the whole clip shows.
func (r *Reader) warnOfEnd() {
	whole := r.last >= noLimit
	if r.in.changed() {
		r.warn("the file changed while it was read: wait until it is written, and measure again")
	}
	if r.resize >= 0 {
		r.warn("the picture size changes at source frame %d: all frames scaled to one size", r.resize)
	}
	if r.pump.clear && clearByNature(r.clip.Codec) {
		r.warn("pictures are clear in places: they are measured over mid grey")
	}
	if r.conf != nil && r.conf.breaks > int64(r.tm.breaks) {
		r.warn("leaps of the time stamps, closed: %d", r.conf.breaks)
	}
	if r.pump.child.tail.any() {
		r.warn("the clip is damaged: pictures may be wrong")
	}
	if whole {
		r.warnOfCount()
	}
}

// warnOfCount says why there are fewer pictures than the container counts
// frames. A recorder that skips what does not change counts the skipped too.
func (r *Reader) warnOfCount() {
	switch stored, claimed := r.stored, r.clip.Claimed; {
	case r.source >= claimed:
	case stored < claimed && r.sparse:
		r.warn("the file counts %d frames but holds %d pictures: each stays up until the next", claimed, stored)
	case stored < claimed:
		r.warn("the file counts %d frames but ends after %d: the rest is missing", claimed, stored)
	}
	if r.source < r.stored {
		r.warn("%d of %d frames could not be decoded", r.stored-r.source, r.stored)
	}
}
