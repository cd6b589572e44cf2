package sheet

import (
	"fmt"
	"strconv"
	"strings"
)

// A SpanError says why the wanted stretch of a clip is none.
type SpanError struct {
	Text   string
	Reason string
}

func (e *SpanError) Error() string { return fmt.Sprintf("%q %s", Visible(e.Text), e.Reason) }

// IsTimecode reports whether a place in a clip is written as a time label and
// so needs the clip's rate to be understood.
func IsTimecode(s string) bool { return strings.ContainsAny(s, ":;") }

// ParsePlace returns the index, from 0, of the frame s names: a frame number
// counted from first, or a time label at the given rate. Errors are *SpanError
// or *TimecodeError.
func ParsePlace(s string, rate Rate, first int) (int64, error) {
	if IsTimecode(s) {
		return rate.ParseTimecode(s)
	}
	n, err := strconv.ParseInt(s, 10, 32)
	if err != nil {
		return 0, &SpanError{s, "is neither a frame number nor a timecode"}
	}
	if n < int64(first) {
		return 0, &SpanError{s, fmt.Sprintf("comes before the first frame, %d", first)}
	}
	return n - int64(first), nil
}

// ParseSpan returns the indices, from 0, of the first and last frame wanted.
// An empty from means the first frame; an empty to means the end, returned as
// -1. Errors are those of ParsePlace.
func ParseSpan(from, to string, rate Rate, first int) (start, end int64, err error) {
	end = -1
	if from != "" {
		if start, err = ParsePlace(from, rate, first); err != nil {
			return 0, 0, err
		}
	}
	if to == "" {
		return start, end, nil
	}
	if end, err = ParsePlace(to, rate, first); err != nil {
		return 0, 0, err
	}
	if end < start {
		return 0, 0, &SpanError{to, fmt.Sprintf("comes before the start, %q", Visible(from))}
	}
	return start, end, nil
}
