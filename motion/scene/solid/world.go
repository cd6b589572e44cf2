package solid

import "math"

// A World is what figures act in: textured ground, level, sloping or with
// stairs, and a wall behind it.
type World struct {
	Wall       float64 // metres behind the origin; 0 means 4
	Slope      float64 // rise of the ground to the right, metres a metre
	Stairs     Stairs  // on level ground
	Bare       bool    // hardly any texture
	Shadow     float64 // share of light that the figures take from the ground; 0 means none
	Reflection float64 // share of light that the ground gives back; 0 means none
}

const (
	usualWall  = 4.0
	groundLuma = 104
	wallLuma   = 128
	tileMetres = 3.0  // side of the noise on ground and wall
	skirting   = 0.12 // height of the dark strip along the wall, metres
	panel      = 1.6  // width of the wall's panels, metres
	seamWidth  = 0.03 // of the lines between panels, metres
)

var (
	groundTone   = tone{groundLuma, 122, 134}
	wallTone     = tone{wallLuma, 132, 124}
	skirtingTone = tone{70, 126, 130}
)

func (w *World) wall() float64 {
	if w.Wall == 0 {
		return usualWall
	}
	return w.Wall
}

// up is the unit vector at right angles to the ground.
func (w *World) up() Vec { return Vec{X: -w.Slope, Y: 1}.Unit() }

// level is the height of the ground at a place.
func (w *World) level(x float64) float64 { return w.Slope*x + w.Stairs.level(x) }

// lay returns p, a point over level ground, over this ground: a shear, so what
// stood on the ground still does, but for feet on stairs.
func (w *World) lay(p Vec) Vec { return Vec{X: p.X, Y: p.Y + w.Slope*p.X + w.Stairs.ramp(p.X), Z: p.Z} }

// ground returns how far along d, from o, the ground is; none is infinity.
func (w *World) ground(o, d Vec) float64 {
	if w.Stairs.Steps > 0 {
		return w.Stairs.meet(o, d)
	}
	falling := w.Slope*d.X - d.Y
	if falling <= 0 {
		return math.Inf(1)
	}
	return (o.Y - w.Slope*o.X) / falling
}

func (w *World) weave() float32 {
	if w.Bare {
		return 4
	}
	return 30
}

// A backdrop is the empty world as one view shows it.
type backdrop struct {
	view  view
	tones []tone
	floor []bool // pixels whose middle shows ground
}

// paint draws the world without figures.
func (b *backdrop) paint(w *World, v view, width, height int) {
	if b.tones == nil {
		b.tones, b.floor = make([]tone, width*height), make([]bool, width*height)
	} else if b.view == v {
		return
	}
	b.view = v
	for y := range height {
		for x := range width {
			b.tones[y*width+x], b.floor[y*width+x] = w.toneAt(&v, v.ray(float64(x)+0.5, float64(y)+0.5))
		}
	}
}

// toneAt is what a ray shows: ground as far as the wall, wall over it, mixed
// where a pixel shows both.
func (w *World) toneAt(v *view, d Vec) (tone, bool) {
	toGround := w.ground(v.at, d)
	toWall := math.Inf(1)
	if d.Z < 0 {
		toWall = (-w.wall() - v.at.Z) / d.Z
	}
	if toGround < toWall {
		p := v.at.Add(d.Times(toGround))
		slant := math.Max(0.02, math.Abs(d.Y-w.Slope*d.X))
		size := toGround / v.focal
		t := w.groundAt(p, size/math.Sqrt(slant))
		if u := 0.5 - (p.Z+w.wall())*slant/size; u > 0 {
			t = t.toward(skirtingTone, float32(u))
		}
		return t, true
	}
	if math.IsInf(toWall, 1) {
		return wallTone, false // past the end of the wall
	}
	p := v.at.Add(d.Times(toWall))
	size := toWall / v.focal
	t := w.wallAt(p, size)
	if u := 0.5 - (p.Y-w.level(p.X))/size; u > 0 {
		g := w.groundAt(Vec{X: p.X, Y: w.level(p.X), Z: p.Z}, size*4)
		t = t.toward(g, float32(u))
	}
	return t, false
}

func (w *World) groundAt(p Vec, size float64) tone {
	t := groundTone
	t.y += w.weave() * noise().at((p.X+p.Y-w.level(p.X))/tileMetres, p.Z/tileMetres, size/tileMetres)
	return t.lit(w.Stairs.light(p, size))
}

func (w *World) wallAt(p Vec, size float64) tone {
	t := wallTone
	t.y += w.weave() * noise().at(p.X/tileMetres+0.37, p.Y/tileMetres+0.61, size/tileMetres)
	over := p.Y - w.level(p.X)
	if u := 0.5 - (over-skirting)/size; u > 0 {
		t = t.toward(skirtingTone, float32(min(1, u)))
	}
	if !w.Bare {
		from := math.Abs(p.X/panel-math.Round(p.X/panel)) * panel
		width := max(seamWidth, size)
		if u := (width/2-from)/size + 0.5; u > 0 {
			t = t.toward(skirtingTone, float32(0.6*min(1, u)*seamWidth/width))
		}
	}
	return t
}
