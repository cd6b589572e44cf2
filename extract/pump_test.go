package extract

import (
	"context"
	"fmt"
	"image"
	"os"
	"testing"
	"time"
)

// A decoder may write several frames before the time of the first of them, as at the end
// of a clip whose last frames it held back, and frames are larger than a pipe holds.
func TestFramesAheadOfTheirTimes(t *testing.T) {
	const count = 3
	size := image.Pt(1280, 720)
	frames, framesEnd, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	times, timesEnd, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	p := &pump{
		kill: func() {}, frames: frames, times: times,
		free: make(chan *picture, readAhead), full: make(chan *picture, readAhead),
	}
	for range readAhead {
		p.free <- newPicture(size, false)
	}
	go func() {
		defer framesEnd.Close()
		defer timesEnd.Close()
		for n := range count {
			pix := newPicture(size, false).pix
			pix[0] = byte(n)
			if _, err := framesEnd.Write(pix); err != nil {
				return // the test says why
			}
		}
		fmt.Fprintln(timesEnd, "#tb 0: 1/24")
		for n := range count {
			fmt.Fprintf(timesEnd, "0, %d, %d, 1, 5440, 0x31e3793c\n", n, n)
		}
	}()
	p.run(context.Background(), time.Second)
	got := 0
	for pic := range p.full {
		if int(pic.pix[0]) != got || pic.time.pts != int64(got) {
			t.Errorf("picture %d with time %d comes as number %d", pic.pix[0], pic.time.pts, got)
		}
		got++
	}
	if p.err != nil || got != count {
		t.Errorf("%d frames of %d: %v", got, count, p.err)
	}
}
