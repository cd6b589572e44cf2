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

// With nothing shown, arms on both sides are told where they mirror each other, with
// their offset to a frame; arms on one side are not.
func TestFindHalves(t *testing.T) {
	list, err := scene.Twins(image.Pt(640, 360))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range list {
		if w.Name != "twins-mirrored-1" && w.Name != "twins-mirrored-3" && w.Name != "twins-parallel-0" {
			continue // the bench has them all
		}
		found := measure(t, w.Scene).Twins
		if !w.Mirrored {
			w.Moves = nil
		}
		if len(found) != len(w.Moves) {
			t.Errorf("%s: %+v", w.Name, found)
			continue
		}
		for i, m := range w.Moves {
			f := found[i]
			if f.First != NoPart || f.Second != NoPart || f.Way != twins.Mirrored ||
				math.Abs(f.Offset-float64(w.Offset)) > 0.5 || max(f.Start-m[0], m[0]-f.Start, f.End-m[1], m[1]-f.End) > 2 {
				t.Errorf("%s: %+v, want mirrored by %d on %v", w.Name, f, w.Offset, m)
			}
		}
	}
}

// The halves of a body that goes as a whole are no twins: an acting figure, one that
// walks, a ball.
func TestNoHalvesOfWholeBodies(t *testing.T) {
	for _, name := range []string{"acting", "walk", "ball-drop"} {
		if found := measure(t, find(t, image.Pt(320, 180), name, "clean")).Twins; len(found) > 0 {
			t.Errorf("%s: %+v", name, found)
		}
	}
}
