package feet

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A parabola is a + b(t-t0) + c(t-t0)^2.
type parabola struct{ t0, a, b, c float64 }

func (p parabola) at(t float64) float64 {
	t -= p.t0
	return p.a + p.b*t + p.c*t*t
}

// slope is the derivative at t.
func (p parabola) slope(t float64) float64 { return p.b + 2*p.c*(t-p.t0) }

// vertex is the instant of its extreme value.
func (p parabola) vertex() float64 { return p.t0 - p.b/(2*p.c) }

// fitParabola fits one through at least three points by least squares; ok is
// false where they do not determine it.
func fitParabola(t, y []float64) (p parabola, ok bool) {
	n := len(t)
	if n < 3 {
		return p, false
	}
	p.t0 = (t[0] + t[n-1]) / 2
	m, v := mat.NewDense(n, 3, nil), mat.NewVecDense(n, y)
	for i, u := range t {
		u -= p.t0
		m.SetRow(i, []float64{1, u, u * u})
	}
	var x mat.VecDense
	if err := x.SolveVec(m, v); err != nil {
		return p, false
	}
	p.a, p.b, p.c = x.AtVec(0), x.AtVec(1), x.AtVec(2)
	return p, true
}

// misfit is the root of the mean squared distance of points from p.
func (p parabola) misfit(t, y []float64) float64 {
	sum := 0.0
	for i := range t {
		d := y[i] - p.at(t[i])
		sum += d * d
	}
	return math.Sqrt(sum / float64(len(t)))
}
