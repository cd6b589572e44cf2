package solid

import (
	"image"

	"holdfast/motion/scene"
)

// A painter is what drawing keeps between frames; none of it changes what a
// frame looks like.
type painter struct {
	backdrop backdrop
	tones    []tone
	sum      []tone
	layer    *layer
	shade    *shade
	film     *scene.Film
	cones    []cone
	images   []cone
}

// exposureTimes is how many instants of an open shutter are averaged.
const exposureTimes = 8

// Draw draws one frame, counted from 0, into dst, a 4:2:0 picture of the
// scene's size. The bytes depend on the frame alone.
func (sc *Scene) Draw(dst *image.YCbCr, frame int) error {
	if err := scene.CheckFrame(dst, sc.Name, frame, sc.Frames, image.Pt(sc.Width, sc.Height)); err != nil {
		return err
	}
	sc.mu.Lock()
	defer sc.mu.Unlock()
	p := &sc.paint
	p.prepare(sc.Width, sc.Height)
	if open := sc.spec.Condition.Shutter; open > 0 {
		sc.drawOpen(float64(frame), open)
	} else {
		sc.drawInstant(float64(frame))
	}
	expose(p.film, p.tones)
	sc.spec.Condition.Develop(dst, p.film, sc.spec.Seed, frame)
	return nil
}

func (p *painter) prepare(w, h int) {
	if p.film != nil {
		return
	}
	n := w * h
	p.tones, p.layer, p.shade = make([]tone, n), newLayer(w, h), newShade(w, h)
	p.film = &scene.Film{Width: w, Height: h, Y: make([]uint16, n), Cb: make([]uint16, n/4), Cr: make([]uint16, n/4)}
}

// drawOpen averages instants of the time that the shutter is open, centred on
// the frame.
func (sc *Scene) drawOpen(frame, open float64) {
	p := &sc.paint
	if p.sum == nil {
		p.sum = make([]tone, len(p.tones))
	}
	clear(p.sum)
	const share = 1.0 / exposureTimes
	for k := range exposureTimes {
		sc.drawInstant(frame + open*((float64(k)+0.5)/exposureTimes-0.5))
		for i, t := range p.tones {
			s := &p.sum[i]
			s.y, s.cb, s.cr = s.y+share*t.y, s.cb+share*t.cb, s.cr+share*t.cr
		}
	}
	copy(p.tones, p.sum)
}

// drawInstant draws the world and all figures.
func (sc *Scene) drawInstant(frame float64) {
	p, w := &sc.paint, &sc.spec.World
	v := sc.viewOf(frame)
	p.backdrop.paint(w, v, sc.Width, sc.Height)
	copy(p.tones, p.backdrop.tones)
	p.cones = p.cones[:0]
	for _, m := range sc.cast {
		pose := m.pose(m.shownAt(sc.second(frame), sc.Rate.Float()))
		p.cones = body(p.cones, &pose, costumes[m.Look])
	}
	if w.Shadow > 0 {
		p.shade.darken(p.tones, p.backdrop.floor, &v, w, p.cones)
	}
	if w.Reflection > 0 {
		p.images = p.images[:0]
		for _, c := range p.cones {
			p.images = append(p.images, c.mirrored(Vec{}, w.up()))
		}
		p.layer.draw(p.tones, p.backdrop.floor, &v, p.images, float32(w.Reflection))
	}
	p.layer.draw(p.tones, nil, &v, p.cones, 1)
}
