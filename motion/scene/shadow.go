package scene

import "math"

// drawShadows darkens the ground under a figure's feet or a ball.
func (sc *Scene) drawShadows(c *canvas, a *actor, t float64, m affine) {
	shown, _, stepped := drawingAt(a.exposure, t)
	for _, s := range a.shadows(shown, stepped) {
		c.shade(m, s, a.shadow)
	}
}

// A pool is a soft shadow: an ellipse on the ground, in the world.
type pool struct {
	x, y, rx, ry float64
	strength     float64 // 0..1
}

func (a *actor) shadows(t float64, stepped bool) []pool {
	switch p := a.performer.(type) {
	case *bouncer:
		far := math.Exp(-p.over(t) / (4 * p.Radius))
		x := p.X + p.travel(t)
		return []pool{{x, p.Ground, p.Radius * (1.5 - 0.4*far), p.Radius * 0.35, far}}
	case *body:
		return p.pools(t, stepped)
	}
	return nil
}

// pools are one wide shadow under the body and a darker one under each foot.
func (b *body) pools(t float64, stepped bool) []pool {
	pose := b.pose(t, stepped)
	h := b.Build.Height
	w := b.world()
	list := make([]pool, 0, 3)
	mid, high := 0.0, 0.0
	for i := range b.plan.feet {
		f := b.footAt(i, pose, t)
		mid, high = mid+f.x/2, high+f.lift/2
		p := w.at(Point{f.x, (nearGround - 2*nearGround*float64(i)) * h})
		near := math.Exp(-12 * f.lift / h)
		list = append(list, pool{p.X, p.Y, 0.7 * b.Build.Foot * h, 0.16 * b.Build.Foot * h, 0.8 * near})
	}
	p := w.at(Point{mid, 0})
	return append(list, pool{p.X, p.Y, 0.26 * h, 0.045 * h, 0.7 * math.Exp(-4*high/h)})
}

// shade darkens luma and chroma by one ratio, softly towards the rim.
func (c *canvas) shade(m affine, s pool, dark float64) {
	round := affine{s.rx, 0, s.x, 0, s.ry, s.y}
	toPool := m.mul(round).inverse()
	area := bounds(m.mul(round), []Point{{-1, -1}, {1, -1}, {-1, 1}, {1, 1}})
	keep := func(x, y float64) float64 {
		p := toPool.at(Point{x, y})
		q := p.X*p.X + p.Y*p.Y
		if q >= 1 {
			return 1
		}
		return 1 - dark*s.strength*(1-q)*(1-q)
	}
	for y := max(0, int(area.y0)); y < min(c.h, int(area.y1)+1); y++ {
		for x := max(0, int(area.x0)); x < min(c.w, int(area.x1)+1); x++ {
			if k := keep(float64(x)+0.5, float64(y)+0.5); k < 1 {
				c.y[y*c.w+x] = darker(c.y[y*c.w+x], 16, k)
			}
			if x%2 == 0 && y%2 == 0 {
				i := y/2*c.cw + x/2
				k := keep(float64(x)+1, float64(y)+1)
				c.cb[i], c.cr[i] = darker(c.cb[i], 128, k), darker(c.cr[i], 128, k)
			}
		}
	}
}

// darker takes v, in steps, k of the way from the black level.
func darker(v uint16, black, k float64) uint16 {
	b := black * unitLevel
	return uint16(b + (float64(v)-b)*k)
}
