package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// A progress shows how far a clip has been read. Its zero value shows nothing.
type progress struct {
	bar *progressbar.ProgressBar // on a terminal
	log *progressLog             // elsewhere
}

// newProgress shows progress on w: as a bar with frames a second and the time
// left where that is a terminal, as a line now and then where it is a file or a
// pipe. number is how many things, such as frames, there will be, as far as known;
// 0 for not at all.
func newProgress(w io.Writer, what, things string, number int64) *progress {
	if _, ok := terminal(w); !ok {
		now := time.Now()
		return &progress{log: &progressLog{w: w, what: what, things: things, number: number, start: now, last: now}}
	}
	if number <= 0 {
		number = -1
	}
	screen := screenOf(w)
	bar := progressbar.NewOptions64(number,
		progressbar.OptionSetWriter(w),
		progressbar.OptionSetDescription(what),
		progressbar.OptionSetItsString(things),
		progressbar.OptionShowCount(),
		progressbar.OptionShowIts(),
		progressbar.OptionSetElapsedTime(true),
		progressbar.OptionSetPredictTime(true),
		progressbar.OptionSetWidth(barWidth(screen.width, what)),
		progressbar.OptionSetTheme(barTheme(screen)),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
	)
	bar.RenderBlank() // a terminal that cannot be written to shows nothing
	return &progress{bar: bar}
}

// barText is how many characters stand beside a bar at most: " 100% || (500000/500000, 1000 frames/s) [10m0s:10m0s]".
const barText = 54

// barWidth is how many characters a bar may have beside its text.
func barWidth(width int, what string) int { return min(24, max(width-barText-len(what), 1)) }

func barTheme(s screen) progressbar.Theme {
	if s.ascii {
		return progressbar.Theme{Saucer: "#", SaucerPadding: " ", BarStart: "|", BarEnd: "|"}
	}
	return progressbar.Theme{Saucer: "█", SaucerPadding: " ", BarStart: "|", BarEnd: "|"}
}

// frame says that the frame with this index, from 0, has been read.
func (p *progress) frame(index int) {
	switch {
	case p.bar != nil:
		p.bar.Set64(int64(index) + 1) // fails only beyond a claimed length: nothing to show then
	case p.log != nil:
		p.log.frame(int64(index)+1, time.Now())
	}
}

// done takes the bar off the terminal.
func (p *progress) done() {
	if p.bar != nil {
		p.bar.Exit()
		p.bar.Clear()
	}
}

// logEvery is how long a progressLog says nothing: a short clip is done by then,
// and a log of the longest run that is allowed stays readable.
const logEvery = time.Minute

// A progressLog says now and then how far something is.
type progressLog struct {
	w            io.Writer
	what, things string
	number       int64
	start, last  time.Time
}

// frame says so many frames are done, if it is time to.
func (l *progressLog) frame(done int64, now time.Time) {
	if now.Sub(l.last) < logEvery {
		return
	}
	l.last = now
	rate := float64(done) / now.Sub(l.start).Seconds()
	line := []string{fmt.Sprintf("holdfast: %s: %d %s", l.what, done, l.things), fmt.Sprintf("%.1f %s/s", rate, l.things)}
	if left := l.number - done; left > 0 {
		line[0] = fmt.Sprintf("holdfast: %s: %d of %d %s", l.what, done, l.number, l.things)
		line = append(line, fmt.Sprintf("%v left", (time.Duration(float64(left)/rate)*time.Second).Round(time.Second)))
	}
	fmt.Fprintln(l.w, strings.Join(line, ", "))
}

// terminal returns the file behind w if it is a terminal.
func terminal(w io.Writer) (*os.File, bool) {
	f, ok := w.(*os.File)
	return f, ok && term.IsTerminal(int(f.Fd()))
}
