package motion

import (
	"image"
	"testing"

	"holdfast/motion/looks"
	"holdfast/motion/scene"
)

// Darts of one and two frames of drawn heads and eyes are found to the frame, with
// their ways, big turns are told from them, and there are no others.
func TestFindDarts(t *testing.T) {
	list, err := scene.Darts(image.Pt(640, 360))
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range list {
		if d.Name != "darts-settling" && d.Name != "darts-between-turns" && d.Name != "darts-of-eyes" {
			continue // the bench has them all
		}
		p := follow(t, d.Scene, markOf(t, d.Scene, d.Figure, d.Part, 0))
		if len(p.Looks) != len(d.Darts) {
			t.Errorf("%s: %d looks for %d: %+v", d.Name, len(p.Looks), len(d.Darts), p.Looks)
		}
		for _, w := range d.Darts {
			l, ok := lookAt(p.Looks, w)
			if !ok {
				t.Errorf("%s: %+v missed among %+v", d.Name, w, p.Looks)
			} else if w.Big != (l.Kind == looks.Turn) {
				t.Errorf("%s: %+v is told as %+v", d.Name, w, l)
			}
		}
	}
}

// lookAt returns the look that is a drawn one: a frame to either side, the same way.
func lookAt(list []looks.Look, w scene.Dart) (looks.Look, bool) {
	for _, l := range list {
		if max(l.Start-w.Start, w.Start-l.Start, l.End-w.End, w.End-l.End) <= 1 && l.Way == w.Way {
			return l, true
		}
	}
	return looks.Look{}, false
}
