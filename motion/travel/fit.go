package travel

import "math"

// A sample is one pixel of the window that a displacement is fitted to.
type sample struct {
	qx, qy float64 // where the still world would take it
	value  float64 // what it should look like there
	gx, gy float64 // slope in the earlier frame
}

// travel returns how far cell i went, in pixels, less the doubt about it, and its
// displacement; ok is false where none explains its change.
func (m *Meter) travel(dst *Map, s *step, i int) (d, u, v float64, ok bool) {
	x0, y0 := dst.Bounds(i)
	m.collect(s, x0-windowMargin, y0-windowMargin, CellSide+2*windowMargin)
	u, v = m.guess(s, x0, y0)
	before, guessed := m.misfit(s, 0, 0), m.misfit(s, u, v)
	if math.IsInf(before, 1) { // the camera leaves this cell behind
		return 0, 0, 0, true
	}
	if d := math.Hypot(u, v); d > slowPixels && guessed <= fastShare*before {
		return d, u, v, true
	} else if d > slowPixels {
		return 0, u, v, false
	}
	// Dense flow is no good guide to slow travel near a contour; rest is.
	if guessed > before {
		u, v = 0, 0
	}
	t := m.tensor()
	u, v = m.displacement(s, t, u, v)
	after := m.misfit(s, u, v)
	if after > explainedShare*before {
		return 0, u, v, false
	}
	return math.Max(0, math.Hypot(u, v)-doubts*t.deviation(u, v, after)), u, v, true
}

// guess is the dense flow less the camera at the cell's steepest pixel.
func (m *Meter) guess(s *step, x0, y0 int) (u, v float64) {
	best, bx, by := -1, 0, 0
	p := s.from.Smooth
	for y := y0; y < y0+CellSide; y++ {
		for x := x0; x < x0+CellSide; x++ {
			i := y*m.w + x
			gx, gy := int(p[i+1])-int(p[i-1]), int(p[i+m.w])-int(p[i-m.w])
			if e := gx*gx + gy*gy; e > best {
				best, bx, by = e, x, y
			}
		}
	}
	fu, fv := s.flow.At(bx, by)
	qx, qy := s.still(float64(bx), float64(by))
	return float64(bx) + float64(fu) - qx, float64(by) + float64(fv) - qy
}

// collect fills m.window with the pixels of a square.
func (m *Meter) collect(s *step, x0, y0, side int) {
	m.window = m.window[:0]
	p := s.from.Smooth
	for y := y0; y < y0+side; y++ {
		for x := x0; x < x0+side; x++ {
			i := y*m.w + x
			qx, qy := s.still(float64(x), float64(y))
			m.window = append(m.window, sample{
				qx: qx, qy: qy,
				value: s.fit.Gain*float64(p[i]) + s.fit.Bias,
				gx:    (float64(p[i+1]) - float64(p[i-1])) / 2,
				gy:    (float64(p[i+m.w]) - float64(p[i-m.w])) / 2,
			})
		}
	}
}

// misfit is the mean squared difference of the window under a displacement,
// infinite where most of the window would leave the picture.
func (m *Meter) misfit(s *step, u, v float64) float64 {
	sum, n := 0.0, 0
	for i := range m.window {
		w := &m.window[i]
		if b, ok := at(s.to.Smooth, m.w, m.h, w.qx+u, w.qy+v); ok {
			sum += (b - w.value) * (b - w.value)
			n++
		}
	}
	if 2*n < len(m.window) {
		return math.Inf(1)
	}
	return sum / float64(n)
}

const (
	// damping is the squared slope, in levels a pixel summed over the window,
	// that holds a displacement back where the picture cannot tell it ...
	damping = 40.0
	// edgeDamping is the same as a share of the slope across: along a straight
	// edge nothing can be told, and coding noise would be taken for travel.
	edgeDamping = 0.03
	// doubts is how many standard deviations are taken off a travel: what is
	// left is there in five cases of six.
	doubts = 1.0
	// alike is how many pixels err together: the area under the blur of
	// picture.SmoothSigma, 4 pi sigma squared.
	alike = 12.6
)

// A tensor sums the products of slopes over a window, damped.
type tensor struct{ xx, xy, yy float64 }

func (m *Meter) tensor() tensor {
	var t tensor
	for i := range m.window {
		w := &m.window[i]
		t.xx, t.xy, t.yy = t.xx+w.gx*w.gx, t.xy+w.gx*w.gy, t.yy+w.gy*w.gy
	}
	hold := damping + edgeDamping*(t.xx+t.yy)
	t.xx, t.yy = t.xx+hold, t.yy+hold
	return t
}

// solve returns the vector that t maps to (x, y).
func (t tensor) solve(x, y float64) (float64, float64) {
	d := t.xx*t.yy - t.xy*t.xy
	return (t.yy*x - t.xy*y) / d, (t.xx*y - t.xy*x) / d
}

// deviation is the standard deviation of a displacement along itself, in
// pixels, when the window's mean squared difference is misfit.
func (t tensor) deviation(u, v, misfit float64) float64 {
	n := math.Hypot(u, v)
	if n == 0 {
		return 0
	}
	x, y := t.solve(u/n, v/n)
	return math.Sqrt(alike * misfit * math.Max(0, x*u/n+y*v/n))
}

// displacement fits one displacement to the window by Gauss-Newton from a
// start: B. Lucas, T. Kanade, "An Iterative Image Registration Technique", 1981.
func (m *Meter) displacement(s *step, t tensor, u, v float64) (float64, float64) {
	for range fitSteps {
		var bx, by float64
		for i := range m.window {
			w := &m.window[i]
			if b, ok := at(s.to.Smooth, m.w, m.h, w.qx+u, w.qy+v); ok {
				bx, by = bx-w.gx*(b-w.value), by-w.gy*(b-w.value)
			}
		}
		du, dv := t.solve(bx, by)
		if n := math.Hypot(du, dv); n > 1 {
			du, dv = du/n, dv/n
		}
		u, v = u+du, v+dv
		if math.Hypot(du, dv) < fitStop {
			break
		}
	}
	return u, v
}
