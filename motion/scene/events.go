package scene

import "math"

// drawEvents lays fades, flashes and passes over a drawn frame, t frames into
// its shot.
func (sc *Scene) drawEvents(c *canvas, sh *shot, t int) {
	for _, p := range sh.Passes {
		if t >= p.From && t <= p.To {
			c.pass(p, t)
		}
	}
	for _, f := range sh.Flashes {
		if t >= f.At && t < f.At+f.Frames {
			c.toward(tone{235, 128, 128}, 0.85/float64(t-f.At+1))
		}
	}
	if k := sc.fade(sh, t); k < 1 {
		c.toward(tone{16, 128, 128}, 1-k)
	}
}

// fade is the share of the picture that is not black, t frames into the shot.
// The first frame of a fade in and the last of a fade out are one step from
// black.
func (sc *Scene) fade(sh *shot, t int) float64 {
	in, out := sc.fadeFrames(sh)
	k := 1.0
	if t < in {
		k = float64(t+1) / float64(in+1)
	}
	if left := sh.Frames - 1 - t; left < out {
		k *= float64(left+1) / float64(out+1)
	}
	return k
}

// fadeFrames are the lengths of a shot's fades, those of its joins included.
func (sc *Scene) fadeFrames(sh *shot) (in, out int) {
	in, out = sh.FadeIn, sh.FadeOut
	if sh.Join.Kind == ThroughBlack {
		in = max(in, sh.Join.Frames)
	}
	for i, s := range sc.shots {
		if s == sh && i+1 < len(sc.shots) && sc.shots[i+1].Join.Kind == ThroughBlack {
			out = max(out, sc.shots[i+1].Join.Frames)
		}
	}
	return in, out
}

// toward mixes the whole picture with one tone.
func (c *canvas) toward(t tone, u float64) {
	for _, p := range []struct {
		plane []uint16
		to    float64
	}{{c.y, t.y}, {c.cb, t.cb}, {c.cr, t.cr}} {
		to := int32(level(p.to))
		k := int32(math.Round(u * 1024))
		for i, v := range p.plane {
			p.plane[i] = uint16(int32(v) + (to-int32(v))*k>>10)
		}
	}
}

// passWidth is the width of what crosses the lens, in picture widths.
const passWidth = 0.55

// pass draws something large, dark and out of focus that crosses the picture.
func (c *canvas) pass(p Pass, t int) {
	w := float64(c.w)
	u := (float64(t-p.From) + 0.5) / float64(p.To-p.From+1)
	if p.Left {
		u = 1 - u
	}
	middle := lerp(-passWidth*w/2, w*(1+passWidth/2), u)
	soft := 0.16 * w
	cover := func(x, y float64) float64 {
		edge := passWidth*w/2 + 0.05*w*math.Sin(y/float64(c.h)*4)
		return EaseInOut.at((edge - math.Abs(x-middle)) / soft)
	}
	const ly, lcb, lcr = 34 * unitLevel, 126 * unitLevel, 134 * unitLevel
	blend := func(v *uint16, to, k float64) { *v = uint16(lerp(float64(*v), to, k)) }
	for y := range c.h {
		for x := range c.w {
			if k := cover(float64(x), float64(y)); k > 0 {
				blend(&c.y[y*c.w+x], ly, k)
			}
		}
	}
	for y := range c.ch {
		for x := range c.cw {
			if k := cover(float64(2*x), float64(2*y)); k > 0 {
				blend(&c.cb[y*c.cw+x], lcb, k)
				blend(&c.cr[y*c.cw+x], lcr, k)
			}
		}
	}
}
