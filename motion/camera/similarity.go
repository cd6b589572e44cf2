// Package camera finds the camera's own motion from frame to frame, takes a
// clip apart into shots, and says in words what the camera did.
package camera

import "math"

// A Similarity is a shift, a turn and a change of scale, in coordinates whose
// origin is the middle of the picture:
//
//	x' = A*x - B*y + TX
//	y' = B*x + A*y + TY
//
// The zero value is no map at all; start from Identity.
type Similarity struct {
	A, B, TX, TY float64
}

// Identity leaves every point where it is.
var Identity = Similarity{A: 1}

// Apply maps a point given from the middle of the picture.
func (s Similarity) Apply(x, y float64) (float64, float64) {
	return s.A*x - s.B*y + s.TX, s.B*x + s.A*y + s.TY
}

// Then returns the map that applies s first and t after it.
func (s Similarity) Then(t Similarity) Similarity {
	tx, ty := t.Apply(s.TX, s.TY)
	return Similarity{
		A: t.A*s.A - t.B*s.B, B: t.B*s.A + t.A*s.B,
		TX: tx, TY: ty,
	}
}

// Inverse returns the map that undoes s, which must have a scale above 0.
func (s Similarity) Inverse() Similarity {
	d := s.A*s.A + s.B*s.B
	a, b := s.A/d, -s.B/d
	return Similarity{A: a, B: b, TX: -(a*s.TX - b*s.TY), TY: -(b*s.TX + a*s.TY)}
}

// Scale returns the factor by which lengths grow.
func (s Similarity) Scale() float64 { return math.Hypot(s.A, s.B) }

// Reach returns how far s moves the point of a w by h picture that it moves
// most, in pixels: one of the corners.
func (s Similarity) Reach(w, h int) float64 {
	most := 0.0
	for _, c := range [4][2]float64{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
		x, y := c[0]*float64(w)/2, c[1]*float64(h)/2
		qx, qy := s.Apply(x, y)
		most = math.Max(most, math.Hypot(qx-x, qy-y))
	}
	return most
}

// Step words s as the motion of the camera.
func (s Similarity) Step() Step {
	return Step{DX: -s.TX, DY: -s.TY, Roll: math.Atan2(s.B, s.A) * 180 / math.Pi, Zoom: s.Scale()}
}

// Between returns the similarity that maps p0 to q0 and p1 to q1; ok is false
// where p0 and p1 are one point or q0 and q1 are.
func Between(p0, p1, q0, q1 [2]float64) (s Similarity, ok bool) {
	px, py := p1[0]-p0[0], p1[1]-p0[1]
	qx, qy := q1[0]-q0[0], q1[1]-q0[1]
	d := px*px + py*py
	if d == 0 || qx*qx+qy*qy == 0 {
		return Identity, false
	}
	s.A = (px*qx + py*qy) / d
	s.B = (px*qy - py*qx) / d
	s.TX = q0[0] - (s.A*p0[0] - s.B*p0[1])
	s.TY = q0[1] - (s.B*p0[0] + s.A*p0[1])
	return s, true
}
