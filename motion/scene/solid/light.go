package solid

import "math"

// sun is the way to the light.
var sun = Vec{X: -0.45, Y: 1, Z: 0.6}.Unit()

// A surface gets ambient light everywhere and the rest by the cosine of its
// angle to the sun, wrapped half round (Lambert's law, softened).
const ambient = 0.45

// weaveMetres is the side of the noise on cloth.
const weaveMetres = 0.5

// lit is the tone of the surface where a ray along d meets it.
func (c *cone) lit(v *view, d Vec, m meeting) tone {
	axis, e1, e2 := c.frame()
	at := v.at.Add(d.Times(m.far))
	along := at.Sub(c.a).Dot(axis)
	round := math.Atan2(m.normal.Dot(e2), m.normal.Dot(e1)) * (c.ra + c.rb) / 2
	t := c.cloth.tone
	size := m.far / v.focal / weaveMetres / math.Max(0.3, -m.normal.Dot(d))
	t.y += c.cloth.weave * noise().at(along/weaveMetres+float64(c.ra)*7, round/weaveMetres+float64(c.rb)*11, size)
	return t.lit(float32(ambient + (1.15-ambient)*max(0, 0.35+0.65*m.normal.Dot(sun))))
}
