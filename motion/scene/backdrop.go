package scene

// A Backdrop is the still world behind the figures.
type Backdrop struct {
	Style  Style
	Seed   uint64
	Ground float64 // height of the ground, stage units below the origin; 0 means 118
	Plain  bool    // leave out the texture, keep shapes and colours
}

func (b Backdrop) ground() float64 {
	if b.Ground == 0 {
		return 118
	}
	return b.Ground
}

// grain is the levels of the backdrop's texture: none where the style is flat.
func (b Backdrop) grain() float64 {
	switch {
	case b.Plain || b.Style == Flat:
		return 0
	case b.Style == Line:
		return 1.5
	case b.Style == Preview:
		return 5
	default:
		return 24
	}
}

// A painter lays polygons of the world onto a plate.
type painter struct {
	brush brush
	on    *canvas
	m     affine // world to plate
	area  box    // part of the world that the plate shows
}

func (p *painter) poly(t tone, outline ...Point) {
	p.brush.fill(p.on, p.m, outline, box{}, paint{tone: t})
}

func (p *painter) rect(t tone, x0, y0, x1, y1 float64) {
	p.poly(t, Point{x0, y0}, Point{x1, y0}, Point{x1, y1}, Point{x0, y1})
}

// line is a straight stroke of the given width.
func (p *painter) line(t tone, a, b Point, width float64) {
	d := b.sub(a)
	k := width / 2 / d.norm()
	n := Point{-d.Y * k, d.X * k}
	p.poly(t, a.add(n), b.add(n), b.sub(n), a.sub(n))
}

// paintBackdrop paints b onto the plate.
func (p *painter) paintBackdrop(b Backdrop) {
	switch b.Style {
	case Flat:
		p.flatField(b)
	case Line:
		p.inkRoom(b)
	case Preview:
		p.greyFloor(b)
	default:
		p.street(b)
	}
	if g := b.grain(); g > 0 {
		addTexture(p.on, p.m.inverse(), b.Seed, g)
	}
}
