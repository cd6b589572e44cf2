package extract

import (
	"fmt"
	"time"
)

// Options say how to read a clip. The zero value reads a whole clip at its
// own rate.
type Options struct {
	// FPS is the rate to conform to, or, for an image sequence, the rate it
	// was rendered at. Zero: the clip's own rate; 24/1 for a sequence.
	FPS Rate
	// From is the first frame to read, counted from 0 in frames of the
	// conformed clip. Default 0.
	From int64
	// To is the last frame to read, included. 0 or less: to the end. (To
	// read frame 0 alone set Count to 1.)
	To int64
	// Count is the largest number of frames to read, From included. 0 or
	// less: no limit. Where both To and Count are set the earlier end holds.
	Count int64
	// WorkArea is the number of pixels that pictures are scaled down to.
	// Default UsualArea. Pictures are never scaled up.
	WorkArea int
	// SingleThread decodes with one thread and lays frames out by their time
	// stamps, so that a damaged clip gives the same frames on every machine.
	// Set it after a *DamagedError.
	SingleThread bool
	Limits
}

// Limits bound what a clip may ask of the machine. Zero fields take the
// default; a negative one switches the limit off.
type Limits struct {
	Bytes     int64         // of a file, not of a sequence; default 100 billion
	Pixels    int64         // pixels of one stored picture; default 36 million (8K is 33)
	Frames    int64         // frames; default 500 000
	Duration  time.Duration // of the clip; default 2 hours
	WallClock time.Duration // from Open to the last Next; default 4 hours
	Stall     time.Duration // without a byte from the decoder while one is waited for; default 1 minute
}

// Numbers of pixels that pictures may be scaled down to. The cost of measuring
// grows with them.
const (
	QuickArea   = 320 * 180
	UsualArea   = 640 * 360
	CarefulArea = 960 * 540
)

const (
	defaultStall = time.Minute
	noLimit      = int64(1) << 62
)

// DefaultLimits are those in force where nothing else is said.
func DefaultLimits() Limits {
	return Limits{
		Bytes: 100_000_000_000, Pixels: 36_000_000, Frames: 500_000,
		Duration: 2 * time.Hour, WallClock: 4 * time.Hour, Stall: defaultStall,
	}
}

// withDefaults fills in what was left zero.
func (o Options) withDefaults() (Options, error) {
	if !o.FPS.IsZero() {
		r, err := NewRate(o.FPS.Num, o.FPS.Den)
		if err != nil {
			return o, &OptionError{err.Error()}
		}
		o.FPS = r
	}
	if o.From < 0 {
		return o, &OptionError{fmt.Sprintf("first frame %d is before the clip", o.From)}
	}
	if o.To > 0 && o.To < o.From {
		return o, &OptionError{fmt.Sprintf("last frame %d is before the first, %d", o.To, o.From)}
	}
	if o.WorkArea <= 0 {
		o.WorkArea = UsualArea
	}
	normal := DefaultLimits()
	o.Bytes = limit(o.Bytes, normal.Bytes)
	o.Pixels = limit(o.Pixels, normal.Pixels)
	o.Frames = limit(o.Frames, normal.Frames)
	o.Duration = limit(o.Duration, normal.Duration)
	o.WallClock = limit(o.WallClock, normal.WallClock)
	o.Stall = limit(o.Stall, normal.Stall)
	return o, nil
}

func limit[T ~int64](given, normal T) T {
	switch {
	case given == 0:
		return normal
	case given < 0:
		return T(noLimit)
	}
	return given
}

// last returns the last frame to read and whether there is one.
func (o Options) last() (int64, bool) {
	last, ok := o.To, o.To > 0
	if o.Count > 0 && (!ok || o.From+o.Count-1 < last) {
		last, ok = o.From+o.Count-1, true
	}
	return last, ok
}
