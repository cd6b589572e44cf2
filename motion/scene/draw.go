package scene

import (
	"fmt"
	"image"
	"math"
)

// A renderer is what drawing keeps between frames; none of it changes what a
// frame looks like.
type renderer struct {
	brush  brush
	plates map[*shot]*plate
	still  map[*shot]stillView
	places []affine
	canvas [3]*canvas // frame, the other shot of a dissolve, one instant of a shutter
	sums   [3][]uint32
}

// A stillView is a backdrop as one view shows it.
type stillView struct {
	view   view
	canvas *canvas
}

// Draw draws one frame, counted from 0, into dst, a 4:2:0 picture of the
// scene's size: BT.601 in limited range, chroma in the middle of its four
// pixels. The bytes depend on the frame alone, not on what was drawn before.
func (sc *Scene) Draw(dst *image.YCbCr, frame int) error {
	switch {
	case frame < 0 || frame >= sc.Frames:
		return fmt.Errorf("draw frame %d of %q, which has %d", frame, sc.Name, sc.Frames)
	case dst.SubsampleRatio != image.YCbCrSubsampleRatio420 || dst.Rect.Dx() != sc.Width || dst.Rect.Dy() != sc.Height:
		return fmt.Errorf("draw %q: picture of %v %v where 4:2:0 of %dx%d is wanted", sc.Name, dst.Rect.Size(), dst.SubsampleRatio, sc.Width, sc.Height)
	}
	sc.mu.Lock()
	defer sc.mu.Unlock()
	sc.render.prepare(sc.Width, sc.Height)
	n := sc.spec.Conform.source(frame)
	main, other, mixed := sc.shotsAt(n)
	c := sc.render.canvas[0]
	sc.drawShot(c, main, n)
	if other != nil {
		sc.drawShot(sc.render.canvas[1], other, n)
		c.mixIn(sc.render.canvas[1], mixed)
	}
	sc.spec.Condition.develop(dst, c, sc.spec.Seed, n)
	return nil
}

// NewFrame returns an empty picture that Draw accepts.
func (sc *Scene) NewFrame() *image.YCbCr {
	return image.NewYCbCr(image.Rect(0, 0, sc.Width, sc.Height), image.YCbCrSubsampleRatio420)
}

func (r *renderer) prepare(w, h int) {
	if r.plates != nil {
		return
	}
	r.plates, r.still = map[*shot]*plate{}, map[*shot]stillView{}
	r.places = make([]affine, parts)
	for i := range r.canvas {
		r.canvas[i] = newCanvas(w, h)
	}
}

// shotsAt returns the shot that drawn frame n belongs to and, within a
// dissolve, the one that comes with its share of the picture.
func (sc *Scene) shotsAt(n int) (main, other *shot, share float64) {
	for i, sh := range sc.shots {
		if n < sh.start || n > sh.end {
			continue
		}
		if i+1 < len(sc.shots) {
			if next := sc.shots[i+1]; n >= next.start {
				return sh, next, float64(n-next.start+1) / float64(next.Join.Frames+1)
			}
		}
		return sh, nil, 0
	}
	return sc.shots[len(sc.shots)-1], nil, 0
}

// drawShot draws one shot at drawn frame n, with its shutter and its events.
func (sc *Scene) drawShot(c *canvas, sh *shot, n int) {
	t := float64(n - sh.start)
	if open := sc.spec.Condition.Shutter; open > 0 {
		sc.drawOpen(c, sh, t, open)
	} else {
		sc.drawInstant(c, sh, t)
	}
	sc.drawEvents(c, sh, n-sh.start)
}

// drawOpen averages instants of the time that the shutter is open, centred
// on the frame.
func (sc *Scene) drawOpen(c *canvas, sh *shot, t, open float64) {
	r := &sc.render
	for i, p := range [][]uint16{c.y, c.cb, c.cr} {
		if r.sums[i] == nil {
			r.sums[i] = make([]uint32, len(p))
		}
		clear(r.sums[i])
	}
	part := r.canvas[2]
	for k := range exposureTimes {
		sc.drawInstant(part, sh, t+open*((float64(k)+0.5)/exposureTimes-0.5))
		for i, p := range [][]uint16{part.y, part.cb, part.cr} {
			for j, v := range p {
				r.sums[i][j] += uint32(v)
			}
		}
	}
	for i, p := range [][]uint16{c.y, c.cb, c.cr} {
		for j, v := range r.sums[i] {
			p[j] = uint16(v / exposureTimes)
		}
	}
}

// drawInstant draws world and figures as they are at t frames of the shot.
func (sc *Scene) drawInstant(c *canvas, sh *shot, t float64) {
	v := sc.viewOf(sh, t)
	m := v.onto(sc.Width, sc.Height)
	sc.drawBackdrop(c, sh, v, m)
	for i := range sh.cast {
		a := &sh.cast[i]
		if a.shadow > 0 {
			sc.drawShadows(c, a, t, m)
		}
	}
	for i := range sh.cast {
		a := &sh.cast[i]
		dst := sc.render.places[:len(a.pieces())]
		a.placeAt(t, dst)
		for j := range dst {
			a.dress.draw(&sc.render.brush, c, &a.pieces()[j], j, m.mul(dst[j]), a.inner[j])
		}
	}
}

// drawBackdrop samples the plate, or copies what the same view gave before.
func (sc *Scene) drawBackdrop(c *canvas, sh *shot, v view, m affine) {
	r := &sc.render
	if s := r.still[sh]; s.canvas != nil && s.view == v {
		c.copyFrom(s.canvas)
		return
	}
	p := r.plates[sh]
	if p == nil {
		p = sc.newPlate(sh)
		r.plates[sh] = p
	}
	s := r.still[sh]
	if s.canvas == nil {
		s.canvas = newCanvas(sc.Width, sc.Height)
	}
	p.sample(s.canvas, m)
	s.view = v
	r.still[sh] = s
	c.copyFrom(s.canvas)
}

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
