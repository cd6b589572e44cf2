package motion

import (
	"image"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/picture"
)

// A camera that pulls back by a tenth on every frame would need a plate 300,000
// times the picture's width after two seconds at 60 a second; measuring must cut
// the stretch into plates that fit into memory instead.
func TestFarCameraPathsAreMeasuredInPieces(t *testing.T) {
	const w, h, frames = 64, 48, 120
	for name, motion := range map[string]camera.Similarity{
		"pull": {A: 0.9}, "push": {A: 1.1}, "pan": {A: 1, TX: -50},
	} {
		s := newShot(Options{Size: image.Pt(w, h), Rate: 24}, 8, 0, &barKeeper{})
		p, err := picture.New(w, h)
		if err != nil {
			t.Fatal(err)
		}
		for range frames {
			if err := s.add(p, step{fit: camera.Fit{Motion: motion, Gain: 1}}); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		var r Result
		if err := s.measure(&r); err != nil {
			t.Errorf("%s: %v", name, err)
		} else if len(r.Curve.Motion) != frames || r.Shots[0].End != frames-1 {
			t.Errorf("%s: %d values for a shot of %+v, want %d", name, len(r.Curve.Motion), r.Shots[0], frames)
		}
		p.Close()
		s.close()
	}
}
