package extract

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// frameTime is one line of ffmpeg's framecrc listing.
type frameTime struct {
	pts   int64 // in ticks of the listing's time base
	bytes int64 // size of the listed picture
}

// timeLines reads a framecrc listing line by line.
type timeLines struct {
	r  *bufio.Reader
	tb timeBase // from the "#tb 0:" line; zero before it was read
}

// maxTimeLine bounds a line of the listing, in bytes; real ones have 60.
const maxTimeLine = 4096

func newTimeLines(r io.Reader) *timeLines {
	return &timeLines{r: bufio.NewReaderSize(r, maxTimeLine)}
}

// next returns the next frame's line; io.EOF at the end.
func (l *timeLines) next() (frameTime, error) {
	for {
		line, err := l.r.ReadSlice('\n')
		if errors.Is(err, io.EOF) && len(line) == 0 {
			return frameTime{}, io.EOF
		}
		if err != nil {
			return frameTime{}, fmt.Errorf("frame times: %w", err)
		}
		text := strings.TrimSpace(string(line))
		if tb, ok := strings.CutPrefix(text, "#tb 0: "); ok {
			if l.tb, ok = parseTimeBase(tb); !ok {
				return frameTime{}, fmt.Errorf("frame times: time base %s", quoteName(tb))
			}
		}
		if text == "" || text[0] == '#' {
			continue
		}
		return parseFrameTime(text)
	}
}

// parseFrameTime reads "0, dts, pts, duration, size, 0xchecksum".
func parseFrameTime(line string) (frameTime, error) {
	fields := strings.Split(line, ",")
	if len(fields) < 6 {
		return frameTime{}, fmt.Errorf("frame times: line %s", quoteName(line))
	}
	pts, errP := strconv.ParseInt(strings.TrimSpace(fields[2]), 10, 64)
	size, errS := strconv.ParseInt(strings.TrimSpace(fields[4]), 10, 64)
	if errP != nil || errS != nil || size < 0 {
		return frameTime{}, fmt.Errorf("frame times: line %s", quoteName(line))
	}
	return frameTime{pts, size}, nil
}
