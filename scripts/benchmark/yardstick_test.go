package main

import (
	"testing"

	"holdfast/motion/flow"
	"holdfast/motion/scene"
)

// A field that says nothing moved is off by just what moved.
func TestEndPointError(t *testing.T) {
	f := &flow.Field{}
	f.Reset(40, 30)
	clear(f.UV)
	if e := endPointError(f, scene.CameraStep{DX: 3, DY: -4, Zoom: 1}); !near(e.mean, 5, 1e-9) || !near(e.most, 5, 1e-9) {
		t.Errorf("a shift of 5 px: %+v", e)
	}
	for i := range f.UV {
		f.UV[i] = []float32{-3, 4}[i%2]
	}
	if e := endPointError(f, scene.CameraStep{DX: 3, DY: -4, Zoom: 1}); !near(e.mean, 0, 1e-9) {
		t.Errorf("the right field is off by %+v", e)
	}
}

// Both methods find a step of a camera over a drawn street.
func TestFlowMethods(t *testing.T) {
	pairs, err := flowPairs()
	if err != nil {
		t.Fatal(err)
	}
	methods, closeAll, err := flowMethods()
	if err != nil {
		t.Fatal(err)
	}
	defer closeAll()
	for _, m := range methods {
		var f flow.Field
		if err := m.calc(&f, pairs[0].from, pairs[0].to); err != nil {
			t.Fatalf("%s: %v", m.name, err)
		}
		// The step is 1.4 px in the middle and 2.3 at a corner. OpenCV's own
		// limit for the coarsest method on a standard pair is 0.86 px.
		if e := endPointError(&f, pairs[0].truth); e.mean > 0.86 {
			t.Errorf("%s is off by %.2f px", m.name, e.mean)
		}
	}
}
