package scene

import (
	"math"
	"testing"
)

// Two balls roll in at even pace, one from each side, pass and roll on: their passages
// and the gap between them follow from their places.
func TestPassagesOfRollingBalls(t *testing.T) {
	a := Ball{Name: "a", Radius: 20, X: -360, Ground: 100, Drop: 200, Speed: 4, Gravity: 0.05, Restitution: 0.9}
	b := a
	b.Name, b.X, b.Speed = "b", 380, -4
	sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 200, Balls: []Ball{a, b}}}})
	truth := sc.Truth()
	// The right side of a is at -340+4t, its left one at -380+4t; the picture goes from
	// -320 to 320. Seen are 3 % of 40, that is 1.2. Those of b are at 360-4t and 400-4t.
	for i, want := range [][2]Passage{
		{{SideLeft, 6, 14}, {SideRight, 166, 174}},
		{{SideRight, 11, 19}, {SideLeft, 171, 179}},
	} {
		if f := truth.Figures[i]; f.Enters != want[0] || f.Leaves != want[1] {
			t.Errorf("%s: enters %+v, leaves %+v, want %+v", f.Name, f.Enters, f.Leaves, want)
		}
	}
	// They are 740-8t apart and pass each other between 92 and 93; both are seen from 11 to 174. A height is
	// 40: on the first step 0.2 of it, more than 4 %.
	if len(truth.Approaches) != 2 {
		t.Fatalf("%+v", truth.Approaches)
	}
	for i, want := range []Approach{{Start: 11, End: 92, Change: -(740 - 88) / 40.0}, {Start: 92, End: 174, Change: (8*174 - 740) / 40.0}} {
		got := truth.Approaches[i]
		if got.Start != want.Start || got.End != want.End || math.Abs(got.Change-want.Change) > 0.21 || math.Abs(got.By[0]-got.By[1]) > 1e-9 {
			t.Errorf("%+v, want %+v by both", got, want)
		}
	}
}

// What is there from the start, and to the end, has no side.
func TestThereFromTheStart(t *testing.T) {
	sc := mustNew(t, Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 10, Figures: []Figure{acting()}}}})
	if f := sc.Truth().Figures[0]; f.Enters != (Passage{}) || f.Leaves != (Passage{Start: 9, End: 9}) {
		t.Errorf("enters %+v, leaves %+v", f.Enters, f.Leaves)
	}
}
