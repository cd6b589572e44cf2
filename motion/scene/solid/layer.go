package solid

import "math"

// A layer draws cones into a picture: nearest first at each pixel, edges
// smoothed by looking through the pixel at several points.
type layer struct {
	w, h  int
	id    []int16   // of the nearest cone at the pixel's middle, -1 for none
	far   []float32 // how far that is
	box   rect      // where ids are set
	cones []cone
}

type rect struct{ x0, y0, x1, y1 int }

func (r rect) with(o rect) rect {
	return rect{min(r.x0, o.x0), min(r.y0, o.y0), max(r.x1, o.x1), max(r.y1, o.y1)}
}

// grown is r with a margin, within w by h.
func (r rect) grown(by, w, h int) rect {
	return rect{max(0, r.x0-by), max(0, r.y0-by), min(w, r.x1+by), min(h, r.y1+by)}
}

func newLayer(w, h int) *layer {
	l := &layer{w: w, h: h, id: make([]int16, w*h), far: make([]float32, w*h)}
	for i := range l.id {
		l.id[i] = -1
	}
	return l
}

// draw adds the cones to tones, which they cover by the share opacity. Where
// mask is not nil only its pixels change.
func (l *layer) draw(tones []tone, mask []bool, v *view, list []cone, opacity float32) {
	l.cones = list
	l.box = rect{l.w, l.h, 0, 0}
	for i := range list {
		l.cast(v, i)
	}
	b := l.box.grown(1, l.w, l.h)
	for y := b.y0; y < b.y1; y++ {
		for x := b.x0; x < b.x1; x++ {
			i := y*l.w + x
			if mask != nil && !mask[i] {
				continue
			}
			if t, cover := l.pixel(v, x, y, tones[i]); cover {
				tones[i] = tones[i].toward(t, opacity)
			}
		}
	}
	l.clear()
}

func (l *layer) clear() {
	for y := l.box.y0; y < l.box.y1; y++ {
		row := l.id[y*l.w : (y+1)*l.w]
		for x := l.box.x0; x < l.box.x1; x++ {
			row[x] = -1
		}
	}
}

// cast enters cone i wherever it is the nearest.
func (l *layer) cast(v *view, i int) {
	c := &l.cones[i]
	box, ok := l.around(v, c)
	if !ok {
		return
	}
	l.box = l.box.with(box)
	for y := box.y0; y < box.y1; y++ {
		for x := box.x0; x < box.x1; x++ {
			m, ok := c.meet(v.at, v.ray(float64(x)+0.5, float64(y)+0.5).Unit())
			if k := y*l.w + x; ok && (l.id[k] < 0 || float32(m.far) < l.far[k]) {
				l.id[k], l.far[k] = int16(i), float32(m.far)
			}
		}
	}
}

// around returns the pixels that a cone may cover.
func (l *layer) around(v *view, c *cone) (rect, bool) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, ball := range []struct {
		at Vec
		r  float64
	}{{c.a, c.ra}, {c.b, c.rb}} {
		p, ahead := v.project(ball.at)
		if ahead < ball.r+nearest {
			return rect{}, false
		}
		// A ball off the middle is seen as an ellipse, longer than round.
		r := v.focal * ball.r / (ahead - ball.r) * math.Hypot(1, math.Max(math.Abs(p.X-v.cx), math.Abs(p.Y-v.cy))/v.focal)
		x0, y0, x1, y1 = min(x0, p.X-r), min(y0, p.Y-r), max(x1, p.X+r), max(y1, p.Y+r)
	}
	b := rect{int(math.Max(0, x0)), int(math.Max(0, y0)), int(math.Min(float64(l.w), x1+1)), int(math.Min(float64(l.h), y1+1))}
	return b, b.x0 < b.x1 && b.y0 < b.y1
}

// samples is through how many points a pixel at an edge is looked at: one in
// each row and each column of its samples, so that upright and level edges are
// known to a sixteenth of a pixel.
const samples = 16

// pixel returns what the pixel shows over what is behind, and whether a cone
// shows at all.
func (l *layer) pixel(v *view, x, y int, behind tone) (tone, bool) {
	near, n := l.neighbours(x, y)
	if n == 1 {
		if near[0] < 0 {
			return behind, false
		}
		return l.shade(v, int(near[0]), float64(x)+0.5, float64(y)+0.5), true
	}
	var sum tone
	add := func(t tone) { sum = tone{sum.y + t.y, sum.cb + t.cb, sum.cr + t.cr} }
	for k := range samples {
		// 5 is coprime to 16 and spreads the points evenly.
		px, py := float64(x)+(float64(k)+0.5)/samples, float64(y)+(float64(k*5%samples)+0.5)/samples
		d := v.ray(px, py).Unit()
		best, at := math.Inf(1), -1
		var hit meeting
		for _, i := range near[:n] {
			if i < 0 {
				continue
			}
			if m, ok := l.cones[i].meet(v.at, d); ok && m.far < best {
				best, at, hit = m.far, int(i), m
			}
		}
		if at < 0 {
			add(behind)
		} else {
			add(l.cones[at].lit(v, d, hit))
		}
	}
	return tone{sum.y / samples, sum.cb / samples, sum.cr / samples}, true
}

// neighbours returns the different ids at a pixel and around it.
func (l *layer) neighbours(x, y int) (ids [9]int16, n int) {
	for j := max(0, y-1); j <= min(l.h-1, y+1); j++ {
	next:
		for i := max(0, x-1); i <= min(l.w-1, x+1); i++ {
			id := l.id[j*l.w+i]
			for _, known := range ids[:n] {
				if known == id {
					continue next
				}
			}
			ids[n] = id
			n++
		}
	}
	return ids, n
}

func (l *layer) shade(v *view, i int, x, y float64) tone {
	d := v.ray(x, y).Unit()
	m, ok := l.cones[i].meet(v.at, d)
	if !ok {
		return tone{}
	}
	return l.cones[i].lit(v, d, m)
}
