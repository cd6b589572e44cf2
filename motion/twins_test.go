package motion

import (
	"image"
	"math"
	"testing"

	"holdfast/motion/parts"
	"holdfast/motion/scene"
	"holdfast/motion/twins"
)

// Arms that do the same are told, mirrored or parallel, with their offset to a frame.
func TestFindTwins(t *testing.T) {
	list, err := scene.Twins(image.Pt(640, 360))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range list {
		if w.Name != "twins-mirrored-1" && w.Name != "twins-parallel-2" {
			continue // the bench has them all
		}
		var marks []parts.Mark
		for _, n := range w.Shown {
			marks = append(marks, markOf(t, w.Scene, w.Figure, w.First, n), markOf(t, w.Scene, w.Figure, w.Second, n))
		}
		found := followAll(t, w.Scene, marks...).Twins
		if len(found) != len(w.Moves) {
			t.Errorf("%s: %+v", w.Name, found)
			continue
		}
		for i, m := range w.Moves {
			f := found[i]
			if way := map[bool]string{true: twins.Mirrored, false: twins.Parallel}[w.Mirrored]; f.Way != way ||
				math.Abs(f.Offset-float64(w.Offset)) > 0.5 || max(f.Start-m[0], m[0]-f.Start, f.End-m[1], m[1]-f.End) > 2 {
				t.Errorf("%s: %+v, want %s by %d on %v", w.Name, f, way, w.Offset, m)
			}
		}
	}
}
