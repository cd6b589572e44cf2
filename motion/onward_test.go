package motion

import (
	"fmt"
	"image"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
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

// TestWhoGoesOn: a figure goes on where it was left, carried along with the set; none
// goes on elsewhere, nor one that left by the edge as another that enters there later.
func TestWhoGoesOn(t *testing.T) {
	const end = 99 // the last frame of the stretch before
	inside, edge := figure.Box{X0: 100, Y0: 50, X1: 140, Y1: 150}, figure.Box{X0: 0, Y0: 50, X1: 40, Y1: 150}
	moved := func(b figure.Box, dx int) figure.Box { b.X0, b.X1 = b.X0+dx, b.X1+dx; return b }
	for name, c := range map[string]struct {
		left, found figure.Box
		unseen      int     // frames before the end on which it was last seen
		pan         float64 // pixels that the set goes on each frame
		want        bool
	}{
		"on the next frame":           {left: inside, found: inside, want: true},
		"a step on":                   {left: inside, found: moved(inside, 12), want: true},
		"elsewhere":                   {left: inside, found: moved(inside, 60), want: false},
		"carried by a pan":            {left: inside, found: moved(inside, 60), pan: 60, want: true},
		"left behind by a pan":        {left: inside, found: inside, pan: 60, want: false},
		"at rest for a while":         {left: inside, found: inside, unseen: 60, want: true},
		"at the edge":                 {left: edge, found: edge, want: true},
		"left, and another comes in":  {left: edge, found: edge, unseen: 20, want: false},
		"nothing was seen of it then": {found: inside, want: false},
	} {
		t.Run(name, func(t *testing.T) {
			pan := camera.Similarity{A: 1, TX: c.pan}
			s := &shot{o: Options{Size: image.Pt(320, 180), Rate: 24}, first: end + 1, steps: make([]step, 1)}
			s.steps[0].fit.Motion = pan
			for range end + 1 {
				s.camera = append(s.camera, camera.Identity)
			}
			last := end - c.unseen
			s.figures = []Figure{{Start: last, End: last, Boxes: []figure.Box{c.left}}}
			found := &figure.Found{Figures: []figure.Figure{{Track: figure.Track{Boxes: []figure.Box{c.found}}}}}
			if who := s.known(found); (who[0] == 0) != c.want {
				t.Errorf("figure %d of the shot, want it to go on: %v", who[0], c.want)
			}
		})
	}
}
