package scene

import "math"

// A Point is a place: in the world in stage units, in the picture in pixels;
// x runs to the right and y down in both.
type Point struct{ X, Y float64 }

func (p Point) sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) norm() float64     { return math.Hypot(p.X, p.Y) }

// An affine maps (x, y) to (a*x + b*y + c, d*x + e*y + f).
type affine struct{ a, b, c, d, e, f float64 }

var identity = affine{a: 1, e: 1}

func (m affine) at(p Point) Point {
	return Point{m.a*p.X + m.b*p.Y + m.c, m.d*p.X + m.e*p.Y + m.f}
}

// mul returns the map that applies n first and m after it.
func (m affine) mul(n affine) affine {
	return affine{
		m.a*n.a + m.b*n.d, m.a*n.b + m.b*n.e, m.a*n.c + m.b*n.f + m.c,
		m.d*n.a + m.e*n.d, m.d*n.b + m.e*n.e, m.d*n.c + m.e*n.f + m.f,
	}
}

// inverse undoes m, which must not be singular.
func (m affine) inverse() affine {
	k := 1 / (m.a*m.e - m.b*m.d)
	return affine{
		m.e * k, -m.b * k, (m.b*m.f - m.c*m.e) * k,
		-m.d * k, m.a * k, (m.c*m.d - m.a*m.f) * k,
	}
}

// det is the factor by which m changes areas, without its sign.
func (m affine) det() float64 { return math.Abs(m.a*m.e - m.b*m.d) }

func shift(x, y float64) affine { return affine{1, 0, x, 0, 1, y} }
func scale(x, y float64) affine { return affine{x, 0, 0, 0, y, 0} }

// rotate turns clockwise as seen, since y runs down.
func rotate(radians float64) affine {
	s, c := math.Sincos(radians)
	return affine{c, -s, 0, s, c, 0}
}

func radians(degrees float64) float64 { return degrees * math.Pi / 180 }
func lerp(a, b, u float64) float64    { return a + (b-a)*u }
func clamp01(u float64) float64       { return math.Max(0, math.Min(1, u)) }

// A box is an upright rectangle; it is empty while x1 <= x0.
type box struct{ x0, y0, x1, y1 float64 }

var nothing = box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

func (b box) with(p Point) box {
	return box{math.Min(b.x0, p.X), math.Min(b.y0, p.Y), math.Max(b.x1, p.X), math.Max(b.y1, p.Y)}
}

func (b box) has(p Point) bool {
	return p.X >= b.x0 && p.X <= b.x1 && p.Y >= b.y0 && p.Y <= b.y1
}

// bounds returns the box around the points after m.
func bounds(m affine, points []Point) box {
	b := nothing
	for _, p := range points {
		b = b.with(m.at(p))
	}
	return b
}
