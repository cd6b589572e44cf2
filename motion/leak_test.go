//go:build matprofile

package motion

import (
	"context"
	"errors"
	"image"
	"testing"

	"gocv.io/x/gocv"
)

// TestNothingLeftOpen counts what is open outside Go's heap, which only a build
// with -tags matprofile can: after whole clips, clips that break off, and clips
// of several shots.
func TestNothingLeftOpen(t *testing.T) {
	torn := errors.New("torn film")
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	for name, c := range map[string]struct {
		ctx    context.Context
		source Source
		rate   float64
		fails  bool
	}{
		"a figure goes by": {context.Background(), &painted{frames: 20, luma: box}, 24, false},
		"two shots":        {context.Background(), &painted{frames: 40, luma: inTurn(20, tiles, weave)}, 24, false},
		"cut on frame 1":   {context.Background(), &painted{frames: 12, luma: inTurn(1, tiles, weave)}, 24, false},
		"over a stretch":   {context.Background(), &painted{frames: stretchFrames + 20, luma: box}, 24, false},
		"no frame":         {context.Background(), &painted{luma: box}, 24, false},
		"breaks off":       {context.Background(), &painted{frames: 20, luma: box, fail: torn}, 24, true},
		"cancelled":        {ended, &painted{frames: 20, luma: box}, 24, true},
		"no rate":          {context.Background(), &painted{frames: 20, luma: box}, 0, true},
	} {
		before := gocv.MatProfile.Count()
		most := 0
		_, err := Measure(c.ctx, c.source, Options{Size: image.Pt(96, 64), Rate: c.rate, Progress: func(int) { most = max(most, gocv.MatProfile.Count()-before) }})
		if (err != nil) != c.fails {
			t.Errorf("%s: error %v", name, err)
		}
		if !c.fails && name != "no frame" && most == 0 {
			t.Errorf("%s: nothing was ever counted: the count proves nothing", name)
		}
		if n := gocv.MatProfile.Count() - before; n != 0 {
			t.Errorf("%s: %d matrices left open", name, n)
		}
	}
}
