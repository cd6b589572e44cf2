package capture

import "math"

// A Vec is a place or a way in space: x, y up, z, right-handed.
type Vec struct{ X, Y, Z float64 }

// Add returns v + w.
func (v Vec) Add(w Vec) Vec { return Vec{v.X + w.X, v.Y + w.Y, v.Z + w.Z} }

// Sub returns v - w.
func (v Vec) Sub(w Vec) Vec { return Vec{v.X - w.X, v.Y - w.Y, v.Z - w.Z} }

// Times returns k*v.
func (v Vec) Times(k float64) Vec { return Vec{k * v.X, k * v.Y, k * v.Z} }

// Dot returns the inner product.
func (v Vec) Dot(w Vec) float64 { return v.X*w.X + v.Y*w.Y + v.Z*w.Z }

// Cross returns the vector product: x cross y is z.
func (v Vec) Cross(w Vec) Vec {
	return Vec{v.Y*w.Z - v.Z*w.Y, v.Z*w.X - v.X*w.Z, v.X*w.Y - v.Y*w.X}
}

// Norm returns the length.
func (v Vec) Norm() float64 { return math.Sqrt(v.Dot(v)) }

// Unit returns v at length 1, or v itself where it has none.
func (v Vec) Unit() Vec {
	if n := v.Norm(); n > 0 {
		return v.Times(1 / n)
	}
	return v
}

// Toward returns the point u of the way from v to w.
func (v Vec) Toward(w Vec, u float64) Vec { return v.Add(w.Sub(v).Times(u)) }

// Across returns what of v is at right angles to the unit vector axis.
func (v Vec) Across(axis Vec) Vec { return v.Sub(axis.Times(v.Dot(axis))) }

// Flat returns v without its height.
func (v Vec) Flat() Vec { return Vec{v.X, 0, v.Z} }

func mean(list ...Vec) Vec {
	var sum Vec
	for _, v := range list {
		sum = sum.Add(v)
	}
	return sum.Times(1 / float64(len(list)))
}

// A turn is a rotation: its three rows.
type turn [3]Vec

var unturned = turn{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

func (m turn) at(v Vec) Vec { return Vec{m[0].Dot(v), m[1].Dot(v), m[2].Dot(v)} }

// then returns the rotation that turns by n first and by m after it, as a
// joint's own turn n comes before its parent's m.
func (m turn) then(n turn) turn {
	columns := [3]Vec{{n[0].X, n[1].X, n[2].X}, {n[0].Y, n[1].Y, n[2].Y}, {n[0].Z, n[1].Z, n[2].Z}}
	var out turn
	for i, row := range m {
		out[i] = Vec{row.Dot(columns[0]), row.Dot(columns[1]), row.Dot(columns[2])}
	}
	return out
}

// about returns the turn by an angle in radians about axis 'X', 'Y' or 'Z'.
func about(axis byte, angle float64) turn {
	s, c := math.Sincos(angle)
	switch axis {
	case 'X':
		return turn{{1, 0, 0}, {0, c, -s}, {0, s, c}}
	case 'Y':
		return turn{{c, 0, s}, {0, 1, 0}, {-s, 0, c}}
	default:
		return turn{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}
	}
}

// ofQuaternion returns the turn of the quaternion w + xi + yj + zk, at any
// length above zero.
func ofQuaternion(w, x, y, z float64) turn {
	n := w*w + x*x + y*y + z*z
	if n == 0 {
		return unturned
	}
	s := 2 / n
	return turn{
		{1 - s*(y*y+z*z), s * (x*y - w*z), s * (x*z + w*y)},
		{s * (x*y + w*z), 1 - s*(x*x+z*z), s * (y*z - w*x)},
		{s * (x*z - w*y), s * (y*z + w*x), 1 - s*(x*x+y*y)},
	}
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
