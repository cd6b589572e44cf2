package sheet

import "math"

// Carry is where the camera's step to a frame takes a spot of the still world, pixels of
// the clip: p goes to m + zoom*R(roll)*(p-m) - (dx, dy), m the middle of the picture.
func (s *Sheet) Carry(x, y float64, frame int) (float64, float64) {
	step, mx, my, sin, cos := s.cameraStep(frame)
	u, v := x-mx, y-my
	return mx + step[3]*(cos*u-sin*v) - step[0], my + step[3]*(sin*u+cos*v) - step[1]
}

// CarryBack is where a spot of the still world was before the camera's step to a frame.
func (s *Sheet) CarryBack(x, y float64, frame int) (float64, float64) {
	step, mx, my, sin, cos := s.cameraStep(frame)
	u, v := (x+step[0]-mx)/step[3], (y+step[1]-my)/step[3]
	return mx + cos*u + sin*v, my - sin*u + cos*v
}

func (s *Sheet) cameraStep(frame int) (step [4]float64, mx, my, sin, cos float64) {
	step = s.Curve.Camera[frame-s.Clip.FirstFrame]
	sin, cos = math.Sincos(step[2] * math.Pi / 180)
	return step, float64(s.Clip.Width) / 2, float64(s.Clip.Height) / 2, sin, cos
}
