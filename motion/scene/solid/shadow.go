package solid

import "math"

// softness is by how much of its height over the ground a part's shadow is
// blurred: the sky is bright around the sun.
const softness = 0.35

// A shade is how much light the figures take from each pixel of the ground.
type shade struct {
	w, h int
	dark []float32
	box  rect
}

func newShade(w, h int) *shade { return &shade{w: w, h: h, dark: make([]float32, w*h)} }

// darken takes light from the ground of tones where the cones stand between it
// and the sun.
func (s *shade) darken(tones []tone, floor []bool, v *view, w *World, list []cone) {
	s.box = rect{s.w, s.h, 0, 0}
	for i := range list {
		s.throw(v, w, &list[i])
	}
	for y := s.box.y0; y < s.box.y1; y++ {
		for x := s.box.x0; x < s.box.x1; x++ {
			i := y*s.w + x
			if floor[i] && s.dark[i] > 0 {
				tones[i] = tones[i].lit(1 - float32(w.Shadow)*s.dark[i])
			}
			s.dark[i] = 0
		}
	}
}

// thrown is where the sun throws p onto the ground, and p's height over it.
func (w *World) thrown(p Vec) (Vec, float64) {
	far := w.ground(p, sun.Times(-1))
	return p.Sub(sun.Times(far)), math.Max(0, far)
}

// throw adds the shadow of one cone: dark along its axis on the ground, fading
// over the edge the more the higher the cone is.
func (s *shade) throw(v *view, w *World, c *cone) {
	a, ha := w.thrown(c.a)
	b, hb := w.thrown(c.b)
	reach := math.Max(c.ra+softness*ha, c.rb+softness*hb)
	box := rect{s.w, s.h, 0, 0}
	for _, p := range []Vec{a, b} {
		for k := range 8 {
			sin, cos := math.Sincos(float64(k) * math.Pi / 4)
			q, ahead := v.project(p.Add(Vec{X: cos, Y: w.Slope * cos, Z: sin}.Times(1.1 * reach)))
			if ahead < nearest {
				return
			}
			x, y := int(max(-1, min(q.X, 1e6))), int(max(-1, min(q.Y, 1e6)))
			box = box.with(rect{x, y, x + 1, y + 1})
		}
	}
	box = box.grown(1, s.w, s.h)
	if box.x0 >= box.x1 || box.y0 >= box.y1 {
		return
	}
	s.box = s.box.with(box)
	axis := b.Sub(a)
	long := math.Max(axis.Dot(axis), 1e-9)
	for y := box.y0; y < box.y1; y++ {
		for x := box.x0; x < box.x1; x++ {
			d := v.ray(float64(x)+0.5, float64(y)+0.5)
			far := w.ground(v.at, d)
			if math.IsInf(far, 1) {
				continue
			}
			p := v.at.Add(d.Times(far)).Sub(a)
			u := max(0, min(1, p.Dot(axis)/long))
			from := p.Sub(axis.Times(u)).Norm()
			r, soft := c.ra+(c.rb-c.ra)*u, 0.02+softness*(ha+(hb-ha)*u)
			// Full inside r - soft/2, none outside r + soft/2; what is high and
			// thin never gets dark.
			k := ease(max(0, min(1, 0.5+(r-from)/soft)))
			i := y*s.w + x
			s.dark[i] = max(s.dark[i], float32(k))
		}
	}
}
