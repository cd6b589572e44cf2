package solid

import "math"

// A cone is two balls and the hull around them: a limb. Side is at right
// angles to the axis or nearly so and turns with the limb.
type cone struct {
	a, b   Vec
	ra, rb float64 // metres
	side   Vec
	cloth  cloth
}

// A meeting is where a ray meets a cone.
type meeting struct {
	far    float64 // metres along the ray
	normal Vec
}

// meet returns the first meeting of the ray from o along the unit vector d:
// the closed form of I. Quilez, Rounded cone intersection (2018).
func (c *cone) meet(o, d Vec) (m meeting, ok bool) {
	ba, oa, ob := c.b.Sub(c.a), o.Sub(c.a), o.Sub(c.b)
	rr := c.ra - c.rb
	m0, m1, m2, m3 := ba.Dot(ba), ba.Dot(oa), ba.Dot(d), d.Dot(oa)
	m5, m6, m7 := oa.Dot(oa), ob.Dot(d), ob.Dot(ob)
	d2 := m0 - rr*rr
	k2 := d2 - m2*m2
	k1 := d2*m3 - m1*m2 + m2*rr*c.ra
	k0 := d2*m5 - m1*m1 + m1*rr*c.ra*2 - m0*c.ra*c.ra
	h := k1*k1 - k0*k2
	if h < 0 {
		return m, false
	}
	if t := (-math.Sqrt(h) - k1) / k2; t > 0 {
		if y := m1 - c.ra*rr + t*m2; y > 0 && y < d2 {
			return meeting{t, oa.Add(d.Times(t)).Times(d2).Sub(ba.Times(y)).Unit()}, true
		}
	}
	ha, hb := m3*m3-m5+c.ra*c.ra, m6*m6-m7+c.rb*c.rb
	m.far = math.Inf(1)
	if ha > 0 {
		t := -m3 - math.Sqrt(ha)
		m = meeting{t, oa.Add(d.Times(t)).Times(1 / c.ra)}
	}
	if hb > 0 {
		if t := -m6 - math.Sqrt(hb); t < m.far {
			m = meeting{t, ob.Add(d.Times(t)).Times(1 / c.rb)}
		}
	}
	return m, m.far > 0 && !math.IsInf(m.far, 1)
}

// frame returns the axis and two unit vectors at right angles to it.
func (c *cone) frame() (axis, e1, e2 Vec) {
	axis = c.b.Sub(c.a).Unit()
	e1 = c.side.Across(axis).Unit()
	return axis, e1, axis.Cross(e1)
}

// spot returns the point of the surface that is u of the way from a to b, at an
// angle about the axis, and its normal, the taper left out.
func (c *cone) spot(u, angle float64) (at, normal Vec) {
	_, e1, e2 := c.frame()
	s, k := math.Sincos(angle)
	normal = e1.Times(k).Add(e2.Times(s))
	return c.a.Toward(c.b, u).Add(normal.Times(c.ra + (c.rb-c.ra)*u)), normal
}

// area is that of what is seen of a cone from the side.
func (c *cone) area() float64 { return (c.ra + c.rb) * (c.b.Sub(c.a).Norm() + c.ra + c.rb) }

// mirrored returns the cone's image in the plane through origin with the given
// normal.
func (c cone) mirrored(origin, normal Vec) cone {
	at := func(p Vec) Vec { return p.Sub(normal.Times(2 * p.Sub(origin).Dot(normal))) }
	c.a, c.b = at(c.a), at(c.b)
	c.side = c.side.Sub(normal.Times(2 * c.side.Dot(normal)))
	return c
}
