package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// counting says how time labels number the frames of a rate.
type counting struct {
	nominal int64 // labels a second
	dropped int64 // labels left out at the start of each minute but each tenth; 0 for non-drop
}

// counting returns the numbering of SMPTE ST 12-1: 29.97 and 59.94 count
// drop-frame, every other rate plainly. 23.976 has no drop-frame count (common
// practice, no source). Rates the standard does not know are labelled at the
// nearest whole rate.
func (r Rate) counting() counting {
	c := counting{nominal: max(1, int64(math.Round(r.Float())))}
	if r.Num*1001 == 30000*r.Den {
		c.dropped = 2
	}
	if r.Num*1001 == 60000*r.Den {
		c.dropped = 4
	}
	return c
}

func (c counting) perMinute() int64     { return c.nominal*60 - c.dropped }
func (c counting) perTenMinutes() int64 { return c.nominal*600 - 9*c.dropped }

// Timecode returns the label hh:mm:ss:ff of the frame with this index, from 0;
// drop-frame rates have a semicolon before the frames. Indices below zero get
// a minus sign.
func (r Rate) Timecode(index int64) string {
	if index < 0 {
		return "-" + r.Timecode(-index)
	}
	c, separator := r.counting(), ":"
	if c.dropped > 0 {
		separator = ";"
		tens, rest := index/c.perTenMinutes(), index%c.perTenMinutes()
		index += 9 * c.dropped * tens
		if rest >= c.nominal*60 {
			index += c.dropped * ((rest-c.nominal*60)/c.perMinute() + 1)
		}
	}
	seconds := index / c.nominal
	return fmt.Sprintf("%02d:%02d:%02d%s%0*d", seconds/3600, seconds/60%60, seconds%60,
		separator, c.digits(), index%c.nominal)
}

// digits is the width of the frame part: two, or three from 101 labels a
// second.
func (c counting) digits() int { return max(2, len(strconv.FormatInt(c.nominal-1, 10))) }

// A TimecodeError says why a time label is none.
type TimecodeError struct {
	Text   string
	Reason string
}

func (e *TimecodeError) Error() string {
	return fmt.Sprintf("timecode %q: %s", Visible(e.Text), e.Reason)
}

// ParseTimecode returns the index, from 0, of the frame a label names. Each
// rate has one notation, the one Timecode writes: a label in the other would
// name another frame, so it is refused rather than guessed at. So are labels
// that drop-frame counting leaves out. Errors are *TimecodeError.
func (r Rate) ParseTimecode(s string) (int64, error) {
	c := r.counting()
	fail := func(format string, args ...any) (int64, error) {
		return 0, &TimecodeError{s, fmt.Sprintf(format, args...)}
	}
	if !r.Valid() {
		return fail("the clip has no frame rate")
	}
	head, frames, drop := strings.Cut(s, ";")
	if !drop {
		at := strings.LastIndexByte(s, ':')
		if at < 0 {
			return fail("write it as hh:mm:ss:ff")
		}
		head, frames = s[:at], s[at+1:]
	}
	if drop && c.dropped == 0 {
		return fail("%s fps has no drop-frame count; write it as hh:mm:ss:ff", r.Words())
	}
	if !drop && c.dropped > 0 {
		return fail("%s fps counts drop-frame; write it as hh:mm:ss;ff", r.Words())
	}
	parts := strings.Split(head, ":")
	if len(parts) != 3 {
		return fail("write it as hh:mm:ss:ff")
	}
	var n [4]int64
	limits := [4]int64{99, 59, 59, c.nominal - 1}
	for i, part := range append(parts, frames) {
		v, err := strconv.ParseUint(part, 10, 16)
		if err != nil {
			return fail("%q is no number", Visible(part))
		}
		if n[i] = int64(v); n[i] > limits[i] {
			return fail("%d is above %d", v, limits[i])
		}
	}
	minutes := n[0]*60 + n[1]
	if n[2] == 0 && n[3] < c.dropped && minutes%10 != 0 {
		return fail("drop-frame counting leaves this label out")
	}
	return (minutes*60+n[2])*c.nominal + n[3] - c.dropped*(minutes-minutes/10), nil
}
