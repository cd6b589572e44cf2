package main

import (
	"io"
	"os"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"holdfast/sheet"
)

// A progress shows how far a clip has been read. Its zero value shows nothing.
type progress struct{ bar *progressbar.ProgressBar }

// newProgress shows progress on w if that is a terminal. frames is how many
// there will be, as far as known; 0 for not at all.
func newProgress(w io.Writer, what string, frames int64) *progress {
	if _, ok := terminal(w); !ok {
		return &progress{}
	}
	if frames <= 0 {
		frames = -1
	}
	return &progress{progressbar.NewOptions64(frames,
		progressbar.OptionSetWriter(w),
		progressbar.OptionSetDescription(what),
		progressbar.OptionSetItsString("frames"),
		progressbar.OptionShowCount(),
		progressbar.OptionShowIts(),
		progressbar.OptionSetWidth(24),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
	)}
}

// frame says that the frame with this index, from 0, has been read.
func (p *progress) frame(index int) {
	if p.bar != nil {
		p.bar.Set64(int64(index) + 1) // fails only beyond a claimed length: nothing to show then
	}
}

// done takes the bar off the terminal.
func (p *progress) done() {
	if p.bar != nil {
		p.bar.Exit()
		p.bar.Clear()
	}
}

// terminal returns the file behind w if it is a terminal.
func terminal(w io.Writer) (*os.File, bool) {
	f, ok := w.(*os.File)
	return f, ok && term.IsTerminal(int(f.Fd()))
}

// pageWidth returns how wide a table for w may be.
func pageWidth(w io.Writer) int {
	if f, ok := terminal(w); ok {
		if width, _, err := term.GetSize(int(f.Fd())); err == nil {
			return width
		}
	}
	return sheet.DefaultWidth
}
