package scene

import (
	"fmt"
	"image"
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
	if err := CheckFrame(dst, sc.Name, frame, sc.Frames, image.Pt(sc.Width, sc.Height)); err != nil {
		return err
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

// CheckFrame reports why a frame of a scene of that many frames and that size
// cannot be drawn into dst.
func CheckFrame(dst *image.YCbCr, name string, frame, frames int, size image.Point) error {
	switch {
	case frame < 0 || frame >= frames:
		return fmt.Errorf("draw frame %d of %q, which has %d", frame, name, frames)
	case dst.SubsampleRatio != image.YCbCrSubsampleRatio420 || dst.Rect.Size() != size:
		return fmt.Errorf("draw %q: picture of %v %v where 4:2:0 of %dx%d is wanted", name, dst.Rect.Size(), dst.SubsampleRatio, size.X, size.Y)
	}
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
