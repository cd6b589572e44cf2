package figure

import (
	"testing"

	"holdfast/motion/camera"
)

// panned links what a camera sees of things that stand or go: at gives the place of
// each thing in the world on a frame, pan how far the camera has gone to the right.
func panned(frames int, pan func(t int) int, at ...func(t int) int) *linker {
	const w, h, side = 100, 60, 10
	var path []camera.Similarity
	for t := range frames {
		path = append(path, camera.Similarity{A: 1, TX: -Shrink * float64(pan(t))})
	}
	l := newLinker(newWorld(w, h, path))
	for t := range frames {
		var boxes []Box
		for _, x := range at {
			if x := x(t) - pan(t); x > -side && x < w {
				boxes = append(boxes, Box{max(0, x), 20, min(w, x+side), 20 + 3*side})
			}
		}
		l.add(t, boxes)
	}
	return &l
}

func TestLinkerUnderTheCamera(t *testing.T) {
	stands := func(x int) func(int) int { return func(int) int { return x } }
	still := func(int) int { return 0 }
	whip := func(t int) int { return 40 * min(max(t-10, 0), 5) }
	blurred := func(t int) int { // seen once the pan is over
		if t < 15 {
			return -1000
		}
		return 205
	}
	follow := func(t int) int { return 4 * t }
	for name, c := range map[string]struct {
		pan  func(t int) int
		at   []func(t int) int
		want int
	}{
		"one stands, the camera too":           {still, []func(int) int{stands(40)}, 1},
		"a whip pan from one to another":       {whip, []func(int) int{stands(40), blurred}, 2},
		"a pan past one that stands":           {follow, []func(int) int{stands(80)}, 1},
		"a pan that follows one that goes":     {follow, []func(int) int{func(t int) int { return 40 + 4*t }}, 1},
		"one goes while the camera is still":   {still, []func(int) int{func(t int) int { return 10 + 3*t }}, 1},
		"a whip pan away from one and no more": {whip, []func(int) int{stands(40)}, 1},
	} {
		if got := len(panned(24, c.pan, c.at...).tracks); got != c.want {
			t.Errorf("%s: %d tracks, want %d", name, got, c.want)
		}
	}
}
