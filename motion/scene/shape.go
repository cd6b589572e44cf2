package scene

import "math"

// A shape is one rigid piece of a figure in its own coordinates, in stage
// units. Outline is a simple polygon; samples spread evenly over its inside
// and stand for equal shares of area.
type shape struct {
	name    partName
	outline []Point
	box     box
	area    float64
	samples []Point
}

// sampleGrid is the number of sample columns and rows over a shape's box: with
// 9 each the mean travel of a swinging limb is within 1 % of the integral.
const sampleGrid = 9

func newShape(name partName, outline []Point) shape {
	s := shape{name: name, outline: outline, box: bounds(identity, outline), area: polygonArea(outline)}
	w, h := s.box.x1-s.box.x0, s.box.y1-s.box.y0
	for j := range sampleGrid {
		for i := range sampleGrid {
			p := Point{s.box.x0 + w*(float64(i)+0.5)/sampleGrid, s.box.y0 + h*(float64(j)+0.5)/sampleGrid}
			if inside(outline, p) {
				s.samples = append(s.samples, p)
			}
		}
	}
	return s
}

// contains reports whether p, in the shape's own coordinates, lies in it.
func (s *shape) contains(p Point) bool { return s.box.has(p) && inside(s.outline, p) }

// inside tells by the even-odd rule.
func inside(outline []Point, p Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

func polygonArea(outline []Point) float64 { return math.Abs(signedArea(outline)) }

// ellipse returns a polygon of n corners around (cx, cy).
func ellipse(cx, cy, rx, ry float64, n int) []Point {
	points := make([]Point, n)
	for i := range points {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		points[i] = Point{cx + rx*c, cy + ry*s}
	}
	return points
}

// capsule returns a limb that hangs from the origin down to (0, length), of
// radius r0 at the top and r1 at the bottom, with round ends.
func capsule(length, r0, r1 float64) []Point {
	const n = 8 // corners of each round end
	var points []Point
	for i := range n + 1 {
		s, c := math.Sincos(math.Pi * float64(i) / n)
		points = append(points, Point{-r0 * c, -r0 * s})
	}
	for i := range n + 1 {
		s, c := math.Sincos(math.Pi * float64(i) / n)
		points = append(points, Point{r1 * c, length + r1*s})
	}
	return points
}

// inset moves every corner inwards by d along its normal; it serves lines
// drawn inside an outline, so d must be small against the shape.
func inset(outline []Point, d float64) []Point {
	sign := 1.0
	if signedArea(outline) < 0 {
		sign = -1
	}
	n := len(outline)
	moved := make([]Point, n)
	for i, p := range outline {
		t := outline[(i+1)%n].sub(outline[(i+n-1)%n])
		l := t.norm()
		if l == 0 {
			moved[i] = p
			continue
		}
		moved[i] = Point{p.X - sign*d*t.Y/l, p.Y + sign*d*t.X/l}
	}
	return moved
}

func signedArea(outline []Point) float64 {
	sum := 0.0
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return sum / 2
}
