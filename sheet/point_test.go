package sheet

import (
	"math"
	"testing"
)

// A thing that stands in a world which the camera pans over keeps its place on the arc;
// one that goes with the picture goes against the pan.
func TestArc(t *testing.T) {
	s := &Sheet{Clip: Clip{Width: 640, Height: 360, FirstFrame: 11}}
	boxes, fixed := [][4]float64{}, [][4]float64{}
	for i := range 9 {
		s.Curve.Camera = append(s.Curve.Camera, [4]float64{4, -1, 0, 1})
		boxes = append(boxes, [4]float64{300 - 4*float64(i), 100 + float64(i), 20, 40})
		fixed = append(fixed, [4]float64{300, 100, 20, 40})
	}
	boxes[3][2] = 0
	start, at := s.Arc(FigurePoint(2, 11, boxes), 5, 17, 15)
	if start != 11 || len(at) != 7 {
		t.Fatalf("%d frames from %d on", len(at), start)
	}
	for i, p := range at {
		switch {
		case i == 3:
			if p != nil {
				t.Errorf("what was not seen is at %v", *p)
			}
		case math.Hypot(p[0]-294, p[1]-124) > 1e-9:
			t.Errorf("frame %d: what stands is at %v", start+i, *p)
		}
	}
	_, at = s.Arc(FigurePoint(2, 11, fixed), 12, 16, 12)
	if got := at[4][0] - at[0][0]; math.Abs(got-16) > 1e-9 {
		t.Errorf("in four frames the camera goes on by %g pixels, want 16", got)
	}
}

func TestPartPoints(t *testing.T) {
	s := &Sheet{Parts: []Part{{Name: "head", Start: 5, End: 6, Boxes: []*[4]float64{nil, {10, 20, 30, 40}}}}}
	p := s.PartPoints()[0]
	if p.Name != "head" || p.End() != 6 || p.At[0] != nil || *p.At[1] != [2]float64{25, 40} {
		t.Errorf("the part is %+v", p)
	}
}
