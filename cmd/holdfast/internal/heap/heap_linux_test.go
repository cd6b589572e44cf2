package heap

import (
	"bytes"
	"fmt"
	"os"
	"testing"

	"gocv.io/x/gocv"
)

// Pictures lie among smaller things; the holes they leave must not stay with the
// process once a big one was freed.
func TestFreedPicturesGoBack(t *testing.T) {
	Tighten()
	const pictures, side = 400, 480 // 230 kB each, as frames are kept
	big := gocv.NewMatWithSize(4000, 2000, gocv.MatTypeCV8U)
	big.SetTo(gocv.NewScalar(1, 0, 0, 0))
	big.Close()
	before := anonymous(t)
	var large, small []gocv.Mat
	for range pictures {
		m := gocv.NewMatWithSize(side, side, gocv.MatTypeCV8U)
		m.SetTo(gocv.NewScalar(1, 0, 0, 0))
		large, small = append(large, m), append(small, gocv.NewMatWithSize(8, 8, gocv.MatTypeCV8U))
	}
	full := anonymous(t)
	for i := range large {
		large[i].Close()
	}
	after := anonymous(t)
	for i := range small {
		small[i].Close()
	}
	if made := full - before; made < pictures*side*side*9/10 {
		t.Fatalf("%d bytes more with the pictures made, want them all", made)
	}
	if left := after - before; left > (full-before)/10 {
		t.Errorf("%d of %d bytes stay after the pictures were freed", left, full-before)
	}
}

// anonymous is the process's own memory in bytes, without that of files.
func anonymous(t *testing.T) int {
	t.Helper()
	text, err := os.ReadFile("/proc/self/status")
	if err != nil {
		t.Skip(err)
	}
	_, rest, found := bytes.Cut(text, []byte("RssAnon:"))
	var kilobytes int
	if _, err := fmt.Sscan(string(rest), &kilobytes); !found || err != nil {
		t.Skipf("no RssAnon in /proc/self/status: %v", err)
	}
	return kilobytes << 10
}
