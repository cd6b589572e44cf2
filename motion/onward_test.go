package motion

import (
	"fmt"
	"image"
	"testing"

	"holdfast/motion/scene"
)

// TestFiguresOfALongShot: figures that live longer than a stretch are as many as were
// drawn, wherever the stretch ends, and are followed from the first frame to the last.
func TestFiguresOfALongShot(t *testing.T) {
	const frames = stretchFrames + 60
	for figures := 1; figures <= 2; figures++ {
		t.Run(fmt.Sprint(figures), func(t *testing.T) {
			sc, err := scene.Long(image.Pt(320, 180), figures, frames)
			if err != nil {
				t.Fatal(err)
			}
			r := measure(t, sc)
			if len(r.Figures) != figures {
				for _, f := range r.Figures {
					t.Logf("%d–%d %v %s", f.Start, f.End, f.Boxes[0], f.Method)
				}
				t.Fatalf("%d figures, want %d", len(r.Figures), figures)
			}
			for _, truth := range sc.Truth().Figures {
				f := figureAt(r, truth)
				if f == nil || f.Start > 1 || f.End < frames-2 {
					t.Fatalf("%s is not followed through", truth.Name)
				}
				if len(f.Boxes) != f.End-f.Start+1 || f.Own == nil || len(f.Own.Doubt) != len(f.Own.Motion) {
					t.Fatalf("%s has %d boxes for frames %d to %d", truth.Name, len(f.Boxes), f.Start, f.End)
				}
				sameBeats(t, f.Own.Beats, drawnBeats(truth, f.Own.Beats), 3) // small pictures: the fastest of ten frames is all but level
			}
		})
	}
}
