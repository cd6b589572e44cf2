package sheet

import (
	"math"
	"testing"
)

// Spots whose ways are known by heart: a pan to the right moves the picture left, a
// quarter turn about the middle, a push to twice the size.
func TestCarry(t *testing.T) {
	s := &Sheet{Clip: Clip{Width: 640, Height: 360, FirstFrame: 101}}
	s.Curve.Camera = [][4]float64{{0, 0, 0, 1}, {10, -4, 0, 1}, {0, 0, 90, 1}, {0, 0, 0, 2}, {3, 4, 30, 1.5}}
	for frame, want := range map[int][2]float64{101: {330, 180}, 102: {320, 184}, 103: {320, 190}, 104: {340, 180}} {
		if x, y := s.Carry(330, 180, frame); math.Hypot(x-want[0], y-want[1]) > 1e-9 {
			t.Errorf("frame %d: %g, %g; want %v", frame, x, y, want)
		}
	}
	for frame := 101; frame <= 105; frame++ {
		x, y := s.Carry(123, 45, frame)
		if x, y = s.CarryBack(x, y, frame); math.Hypot(x-123, y-45) > 1e-9 {
			t.Errorf("frame %d: there and back ends at %g, %g", frame, x, y)
		}
	}
}
