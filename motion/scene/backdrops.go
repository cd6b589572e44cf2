package scene

import "math"

// span calls do with the index and left end of every cell of the given width
// that the plate touches.
func (p *painter) span(width float64, do func(i int64, x float64)) {
	for i := int64(math.Floor(p.area.x0 / width)); float64(i)*width < p.area.x1; i++ {
		do(i, float64(i)*width)
	}
}

// gradient is rows of tone from top at y0 to bottom at y1.
func (p *painter) gradient(top, bottom tone, y0, y1 float64) {
	const rows = 48
	for i := range rows {
		a, b := lerp(y0, y1, float64(i)/rows), lerp(y0, y1, float64(i+1)/rows)
		// Each row reaches below the next, which covers it: no seams.
		p.rect(top.toward(bottom, (float64(i)+0.5)/rows), p.area.x0, a, p.area.x1, math.Max(b+1, p.area.y0))
	}
}

// street is a row of houses at dusk with lit windows and lamp posts.
func (p *painter) street(b Backdrop) {
	ground := b.ground()
	p.on.clear(rgb(52, 54, 88))
	p.gradient(rgb(40, 44, 80), rgb(176, 120, 116), -420, ground-60)
	p.span(150, func(i int64, x float64) { p.house(b, i, x, ground-34) })
	p.rect(rgb(92, 88, 96), p.area.x0, ground-34, p.area.x1, p.area.y1+400)
	p.rect(rgb(66, 62, 74), p.area.x0, ground-34, p.area.x1, ground-29)
	p.span(46, func(i int64, x float64) { // slabs of the pavement
		lean := 0.35 * (x + 23)
		p.line(rgb(72, 68, 78), Point{x, ground - 29}, Point{x + 0.2*lean/10, ground + 46}, 1.6)
		k := 0.9 + 0.25*HashUnit(b.Seed, 7, uint64(i))
		p.rect(rgb(92, 88, 96).lit(k), x+2, ground-4, x+44, ground+12)
	})
	p.rect(rgb(58, 54, 66), p.area.x0, ground+46, p.area.x1, ground+54)
	p.rect(rgb(50, 50, 60), p.area.x0, ground+54, p.area.x1, p.area.y1+400)
	p.span(230, func(i int64, x float64) { p.lamp(x+70, ground-24) })
}

// house is one front: wall, courses of brick, windows, a door.
func (p *painter) house(b Backdrop, i int64, x, foot float64) {
	r := func(k uint64) float64 { return HashUnit(b.Seed, uint64(i), k) }
	walls := []tone{rgb(96, 76, 84), rgb(80, 86, 104), rgb(112, 88, 76), rgb(74, 78, 92)}
	wall := walls[int(r(0)*4)%4].lit(0.85 + 0.3*r(1))
	top := foot - 190 - 80*r(2)
	p.rect(wall, x-0.5, top, x+150.5, foot)
	p.poly(wall.lit(0.62), Point{x - 5, top}, Point{x + 24, top - 34}, Point{x + 124, top - 34}, Point{x + 155, top})
	for y, row := top+8, 0; y < foot; y, row = y+9, row+1 {
		for c := range 9 {
			bx := x + 4 + float64(c)*16 + 8*float64(row%2)
			if k := HashUnit(b.Seed, uint64(i), 100+uint64(row*9+c)); k > 0.45 && bx < x+136 {
				p.rect(wall.lit(0.8+0.4*k), bx, y, bx+13, y+6)
			}
		}
	}
	for row := range 3 {
		for c := range 3 {
			wx, wy := x+16+float64(c)*44, foot-76-float64(row)*66
			if wy-40 < top || row == 0 && c == 1 {
				continue
			}
			p.window(r(10+uint64(row*3+c)), wx, wy)
		}
	}
	p.rect(wall.lit(0.5), x+56, foot-62, x+86, foot)
	p.rect(rgb(110, 70, 52).lit(0.8+0.4*r(5)), x+59, foot-59, x+83, foot)
	p.rect(wall.lit(1.25), x, foot-6, x+150, foot)
}

func (p *painter) window(luck, x, y float64) {
	glass := rgb(48, 56, 84)
	if luck > 0.55 {
		glass = rgb(236, 186, 96).lit(0.75 + 0.3*luck)
	}
	frame := rgb(58, 50, 58)
	p.rect(frame, x-2, y-38, x+28, y+2)
	p.rect(glass, x, y-36, x+26, y)
	p.rect(frame, x+12, y-36, x+14, y)
	p.rect(frame, x, y-20, x+26, y-18)
	p.rect(frame.lit(1.5), x-4, y+2, x+30, y+5)
}

func (p *painter) lamp(x, foot float64) {
	iron := rgb(38, 40, 50)
	for r := 76.0; r > 6; r -= 4 { // the glow
		p.brush.fill(p.on, p.m, ellipse(x, foot-195, r, r, 48), box{}, paint{tone: rgb(255, 206, 120), veil: 1 - 0.035*(1.2-r/76)})
	}
	p.rect(iron, x-2.5, foot-184, x+2.5, foot)
	p.rect(iron, x-6, foot-14, x+6, foot)
	p.poly(iron, Point{x - 11, foot - 206}, Point{x, foot - 218}, Point{x + 11, foot - 206})
	p.poly(rgb(255, 232, 168), Point{x - 9, foot - 205}, Point{x + 9, foot - 205}, Point{x + 6, foot - 185}, Point{x - 6, foot - 185})
	p.rect(iron, x-7, foot-186, x+7, foot-182)
}

// flatField is a cartoon background: sky, two hills, a path, a sun.
func (p *painter) flatField(b Backdrop) {
	ground := b.ground()
	p.on.clear(rgb(158, 204, 222))
	p.poly(rgb(250, 226, 150), ellipse(-190, -110, 34, 34, 48)...)
	p.span(520, func(i int64, x float64) {
		p.poly(rgb(136, 180, 160), ellipse(x+200, ground+10, 320, 110+40*HashUnit(b.Seed, uint64(i)), 64)...)
	})
	p.rect(rgb(196, 206, 150), p.area.x0, ground-30, p.area.x1, p.area.y1+400)
	p.rect(rgb(226, 206, 166), p.area.x0, ground-12, p.area.x1, ground+26)
	p.span(360, func(i int64, x float64) {
		h := 40 + 20*HashUnit(b.Seed, uint64(i), 3)
		p.rect(rgb(128, 96, 76), x+86, ground-30-h, x+96, ground-30)
		p.poly(rgb(104, 150, 110), ellipse(x+91, ground-42-h, 34, 38, 32)...)
	})
}

// inkRoom is white paper with a floor line, a door and a picture.
func (p *painter) inkRoom(b Backdrop) {
	ground, ink := b.ground(), grey(70)
	p.on.clear(grey(235))
	p.line(ink, Point{p.area.x0, ground - 22}, Point{p.area.x1, ground - 22}, 1.8)
	p.span(420, func(i int64, x float64) {
		p.frame(ink, x+30, ground-190, x+110, ground-22)
		p.frame(ink, x+210, ground-170, x+300, ground-104)
		p.line(ink, Point{x + 212, ground - 110}, Point{x + 250, ground - 150}, 1.5)
		p.line(ink, Point{x + 250, ground - 150}, Point{x + 296, ground - 112}, 1.5)
		p.poly(ink, ellipse(x+100, ground-100, 3, 3, 12)...)
	})
	p.span(64, func(i int64, x float64) {
		y := ground - 12 + 50*HashUnit(b.Seed, uint64(i))
		p.line(grey(150), Point{x, y}, Point{x + 26, y}, 1.4)
	})
}

func (p *painter) frame(t tone, x0, y0, x1, y1 float64) {
	p.line(t, Point{x0, y0}, Point{x1, y0}, 1.8)
	p.line(t, Point{x0, y1}, Point{x1, y1}, 1.8)
	p.line(t, Point{x0, y0}, Point{x0, y1}, 1.8)
	p.line(t, Point{x1, y0}, Point{x1, y1}, 1.8)
}

// greyFloor is the empty stage of a preview render: a floor grid in
// perspective under a grey sky, a few blocks.
func (p *painter) greyFloor(b Backdrop) {
	ground := b.ground()
	horizon := ground - 70
	p.on.clear(grey(118))
	p.gradient(grey(96), grey(132), -300, horizon)
	p.rect(grey(104), p.area.x0, horizon, p.area.x1, p.area.y1+400)
	for i := range 9 { // lines across, nearer ones further apart
		y := horizon + 400/(float64(9-i)+0.3)*0.5
		p.rect(grey(84), p.area.x0, y, p.area.x1, y+1.4)
	}
	p.span(40, func(i int64, x float64) { // lines into depth
		top := x * 0.35
		p.line(grey(84), Point{top, horizon}, Point{x * 1.9, ground + 240}, 1.4)
	})
	p.span(340, func(i int64, x float64) {
		h := 50 + 50*HashUnit(b.Seed, uint64(i))
		p.rect(grey(140), x+40, horizon+8-h, x+96, horizon+8)
		p.poly(grey(122), Point{x + 96, horizon + 8 - h}, Point{x + 120, horizon - h}, Point{x + 120, horizon}, Point{x + 96, horizon + 8})
		p.poly(grey(158), Point{x + 40, horizon + 8 - h}, Point{x + 64, horizon - h}, Point{x + 120, horizon - h}, Point{x + 96, horizon + 8 - h})
	})
}
