package sheet

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Bounds of a file of remarks: far more than anyone types.
const (
	maxRemarkBytes = 1 << 20
	maxRemarkText  = 2000 // characters of one
)

// A RemarkError says what a file of remarks may not hold, and where.
type RemarkError struct {
	Line   int // from 1; 0 where it is the whole file
	Reason string
}

func (e *RemarkError) Error() string {
	if e.Line == 0 {
		return e.Reason
	}
	return fmt.Sprintf("line %d: %s", e.Line, e.Reason)
}

// Hint says what to do about it.
func (e *RemarkError) Hint() string {
	return "write a line such as 43-51: longer hold here, or WebVTT"
}

// A PlacedRemark is a remark as it was written: its place is understood once
// the clip is known.
type PlacedRemark struct {
	Line       int
	Text       string
	start, end string // frame numbers or timecodes of the first and last frame
	from, to   int64  // of a cue, milliseconds; to is past its end
	cue        bool
}

// ReadRemarks reads a file of remarks. It is WebVTT (W3C) if it begins so; else
// each line is one frame or two, a colon and what there is to say of them:
//
//	43-51: longer hold here
//	60: the eye goes first
//	00:00:02:12-00:00:03:00: too even
//
// Empty lines and those that begin with # are passed over. Errors about the
// content are *RemarkError.
func ReadRemarks(r io.Reader) ([]PlacedRemark, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxRemarkBytes+1))
	if err != nil {
		return nil, err
	}
	if len(text) > maxRemarkBytes {
		return nil, &RemarkError{0, fmt.Sprintf("is larger than %d MB", maxRemarkBytes>>20)}
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // as editors on Windows begin a file
	if !utf8.Valid(text) {
		return nil, &RemarkError{0, "is no UTF-8 text"}
	}
	lines := strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(string(text)), "\n")
	if head := lines[0]; head == "WEBVTT" || strings.HasPrefix(head, "WEBVTT ") || strings.HasPrefix(head, "WEBVTT\t") {
		return readCues(lines)
	}
	return readLines(lines)
}

func readLines(lines []string) (list []PlacedRemark, err error) {
	for i, line := range lines {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if !strings.Contains(line, ":") {
			return nil, &RemarkError{i + 1, "has no colon after its frames"}
		}
		place, text := cutPlace(line)
		start, end := cutSpan(place)
		if start == "" || end == "" {
			return nil, &RemarkError{i + 1, "begins with no frame number"}
		}
		r := PlacedRemark{Line: i + 1, Text: strings.TrimSpace(text), start: start, end: end}
		if err := r.check(); err != nil {
			return nil, err
		}
		list = append(list, r)
	}
	return list, nil
}

// cutPlace parts a line at the colon after its frames: the first that no digit
// follows, as timecodes hold colons too. Where a digit follows every one, it is
// the first.
func cutPlace(line string) (place, text string) {
	for i, c := range line {
		if c != ':' {
			continue
		}
		if rest := line[i+1:]; rest == "" || rest[0] < '0' || rest[0] > '9' {
			return line[:i], rest
		}
	}
	place, text, _ = strings.Cut(line, ":")
	return place, text
}

// cutSpan parts the frames of a remark: "43-51", "43–51", or one frame. Frame numbers
// may be below zero.
func cutSpan(place string) (start, end string) {
	place = strings.TrimSpace(place)
	for i, c := range place {
		if i > 0 && (c == '-' || c == '–') {
			return strings.TrimSpace(place[:i]), strings.TrimSpace(place[i+utf8.RuneLen(c):])
		}
	}
	return place, place
}

// check reports words that cannot stand in a sheet.
func (p PlacedRemark) check() error {
	switch n := utf8.RuneCountInString(p.Text); {
	case n == 0:
		return &RemarkError{p.Line, "says nothing"}
	case n > maxRemarkText:
		return &RemarkError{p.Line, fmt.Sprintf("is longer than %d characters", maxRemarkText)}
	}
	return nil
}

// place finds the frames of a remark in a clip.
func (p PlacedRemark) place(c Clip) (Remark, error) {
	r := Remark{Text: p.Text}
	var err error
	if p.cue {
		r.Start, r.End = c.frameAt(p.from), c.frameAt(p.to-1)
	} else if r.Start, err = p.frame(p.start, c); err == nil {
		r.End, err = p.frame(p.end, c)
	}
	switch {
	case err != nil:
		return r, err
	case r.End < r.Start:
		return r, &RemarkError{p.Line, fmt.Sprintf("frame %d comes before %d", r.End, r.Start)}
	case r.Start < c.FirstFrame || r.End > c.Last():
		return r, &RemarkError{p.Line, fmt.Sprintf("%s is outside the clip, which has %s", frameWords(r.Start, r.End), frameWords(c.FirstFrame, c.Last()))}
	}
	return r, nil
}

// frame understands a frame number or a timecode.
func (p PlacedRemark) frame(s string, c Clip) (int, error) {
	if IsTimecode(s) {
		index, err := c.FPS.ParseTimecode(s)
		if err != nil || index > maxFrame {
			return 0, &RemarkError{p.Line, fmt.Sprintf("%q is no timecode of this clip", Visible(s))}
		}
		return int(index) - c.Skipped + c.FirstFrame, nil
	}
	n, err := strconv.ParseInt(s, 10, 32)
	if err != nil {
		return 0, &RemarkError{p.Line, fmt.Sprintf("%q is no frame number", Visible(s))}
	}
	return int(n), nil
}

// frameAt returns the number of the frame that is up in a millisecond.
func (c Clip) frameAt(ms int64) int {
	index := int64(math.Min(float64(ms)*c.FPS.Float()/1000, maxFrame))
	for c.FPS.Millis(index+1) <= ms && index < maxFrame {
		index++
	}
	for index > 0 && c.FPS.Millis(index) > ms {
		index--
	}
	return int(index) - c.Skipped + c.FirstFrame
}
