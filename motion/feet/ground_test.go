package feet

import (
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// A shoe that stands is one spot all along while the camera pans over a hold:
// where it is in the hold's last frame is not where it is in its first.
func TestSpotsKeepTheirPlaceInAPan(t *testing.T) {
	var offsets [][2]float64
	for f := range 13 {
		offsets = append(offsets, [2]float64{4 * float64(f), 0})
	}
	s := shooter(offsets)
	for f, o := range offsets {
		s.Path[f] = camera.Similarity{A: 1, TX: o[0]}
		s.Still[f] = f > 3 && f < 10 // a hold from frame 3 to frame 9
	}
	w := s.walker(&figure.Figure{HeightPx: 100})
	w.draws = s.drawings(0, len(offsets)-1)
	p := &spot{left: true, at: []place{{20, 54}}}
	w.forward(p)
	if p.last() != len(w.draws)-1 {
		t.Fatalf("followed to drawing %d of %d", p.last(), len(w.draws)-1)
	}
	for i, at := range p.at {
		if want := 20 + offsets[w.draws[i].start][0]; math.Abs(at.x-want) > 0.3 || math.Abs(at.y-54) > 0.3 {
			t.Errorf("drawing from %d: at %.2f, %.2f, want %.0f, 54", w.draws[i].start, at.x, at.y, want)
		}
	}
	back := &spot{left: true, first: p.last(), at: []place{p.at[p.last()]}}
	w.backward(back)
	if back.first != 0 || math.Abs(back.at[0].x-20) > 0.3 {
		t.Errorf("followed back to drawing %d at %+v, want 0 at 20, 54", back.first, back.at[0])
	}
}
