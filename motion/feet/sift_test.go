package feet

import (
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// walkerOf is a walker of a figure 100 pixels high before a still camera, 24 frames
// a second, with a drawing for each run of frames given.
func walkerOf(runs ...int) *walker {
	s := &Stretch{Rate: 24, W: 640, H: 360}
	w := s.walker(&figure.Figure{HeightPx: 100})
	w.sole = usualSole
	for _, n := range runs {
		first := len(s.Path)
		for range n {
			s.Path = append(s.Path, camera.Identity)
		}
		w.draws = append(w.draws, drawing{first, first + n - 1})
	}
	return w
}

func TestLasts(t *testing.T) {
	w := walkerOf(60, 60)
	for _, c := range []struct {
		name  string
		given Contact
		want  bool
	}{
		{"a plant", Contact{Start: 40, End: 55}, true},
		{"two frames", Contact{Start: 40, End: 41}, false},
		{"a slide", Contact{Start: 40, End: 55, Share: 0.1}, true},
		{"slow for a moment on the way", Contact{Start: 40, End: 42, Share: 0.02}, false},
		{"slow as the clip begins", Contact{Start: 0, End: 2, Share: 0.02}, true},
		{"slow as the clip ends", Contact{Start: 117, End: 119, Share: 0.02}, true},
		{"swinging as the clip begins", Contact{Start: 0, End: 2, Share: 0.1}, false},
	} {
		if got := w.lasts(c.given); got != c.want {
			t.Errorf("%s lasts: %v", c.name, got)
		}
	}
}

func TestLongestPose(t *testing.T) {
	for _, c := range []struct {
		name string
		runs []int
		want float64 // seconds
	}{
		{"on ones", []int{1, 1, 1, 1, 1, 20, 1}, 3.0 / 24},
		{"on eights", []int{8, 8, 8, 8, 8, 8}, 16.0 / 24},
		{"two poses", []int{40, 40}, 3.0 / 24},
	} {
		if got := walkerOf(c.runs...).longestPose(); got != c.want {
			t.Errorf("%s: %g s, want %g", c.name, got, c.want)
		}
	}
}

func TestLevel(t *testing.T) {
	step := func(start, end int, x, y float64) Contact { return Contact{Start: start, End: end, X: x, Y: y} }
	walk := []Contact{step(0, 20, 100, 200), step(15, 40, 130, 196), step(35, 60, 160, 200)}
	for _, c := range []struct {
		name string
		more []Contact
		kept int
	}{
		{"a walk", nil, 3},
		{"two hems over it", []Contact{step(0, 19, 100, 160), step(0, 19, 120, 162)}, 3},
		{"stairs", []Contact{step(55, 80, 190, 193), step(75, 100, 220, 186), step(95, 119, 250, 179)}, 6},
		{"a leap on a table", []Contact{step(75, 90, 200, 150), step(75, 119, 220, 150)}, 5},
	} {
		list := append(append([]Contact(nil), walk...), c.more...)
		if got := walkerOf(120).level(list); len(got) != c.kept {
			t.Errorf("%s: %d contacts of %d kept, want %d: %v", c.name, len(got), len(list), c.kept, got)
		}
	}
}

// One shoe of 15 pixels: heel, toe and a seam between; and the heel of the foot
// before it.
func TestFeetByLumps(t *testing.T) {
	w := walkerOf(1, 1, 1, 1, 1, 1)
	l := lump{x0: 100, x1: 115, y: 200, yl: 200, yr: 200}
	for range w.draws {
		w.ends = append(w.ends, []end{{place{100, 200}, true, l}, {place{115, 200}, false, l}})
	}
	at := func(x float64, left bool) *stand {
		p := &spot{left: left}
		for i := range w.draws {
			p.at = append(p.at, place{x, 200})
			if i > 0 {
				p.by = append(p.by, step{seen: true})
			}
		}
		return &stand{p, 0, len(w.draws) - 1}
	}
	heel, toe, seam, other := at(100, true), at(115, false), at(108, false), at(140, true)
	if got := w.feet([]*stand{heel, seam, toe, other}); len(got) != 2 {
		t.Errorf("%d feet, want 2", len(got))
	}
}

func TestInTurn(t *testing.T) {
	for _, c := range []struct {
		name string
		list []Contact
		want int
	}{
		{"elbows", []Contact{{Start: 5, End: 60}, {Start: 6, End: 61}, {Start: 20, End: 40}}, 1},
		{"steps", []Contact{{Start: 5, End: 20}, {Start: 17, End: 35}, {Start: 32, End: 50}, {Start: 47, End: 60}}, 2},
	} {
		if got := inTurn(c.list); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}
