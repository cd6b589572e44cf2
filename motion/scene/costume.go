package scene

// A mark is a patch of colour on a shape, in the shape's own coordinates.
type mark struct {
	outline []Point
	paint   paint
}

// A costume is how every piece of a figure is painted, index for index.
type costume struct {
	base  []paint
	marks [][]mark
	ink   float64 // width of the outline in stage units; 0 for none
	tone  tone    // of the outline
}

func dress(shapes []shape, b Build, l Look, s Style) costume {
	c := clothFor(l, s)
	k := costume{base: make([]paint, len(shapes)), marks: make([][]mark, len(shapes)), tone: c.ink}
	if s == Line {
		k.ink = 0.011 * b.Height
	} else if s == Flat {
		k.ink = 0.005 * b.Height
	}
	for i, sh := range shapes {
		k.base[i] = paint{tone: partTone(sh.name, c), shade: c.shade, weave: c.weave}
		k.marks[i] = partMarks(sh, b, c)
	}
	return k
}

func partTone(n partName, c cloth) tone {
	const back = 0.78 // the far limbs lie in the shade
	switch n {
	case farUpperArm, farForearm:
		return c.coat.lit(back)
	case nearUpperArm, nearForearm:
		return c.coat.lit(1.07)
	case trunk:
		return c.coat
	case farThigh, farShin:
		return c.leg.lit(back)
	case nearThigh, nearShin:
		return c.leg
	case farFoot:
		return c.shoe.lit(back)
	case nearFoot:
		return c.shoe
	case farHand, neck:
		return c.skin.lit(0.86)
	case head, nearHand:
		return c.skin
	case nose:
		return c.skin.lit(0.88)
	case nearEye, farEye:
		return c.ink
	case hat:
		return c.hat
	case brim:
		return c.hat.lit(0.75)
	case scarf:
		return c.scarf
	case bag:
		return c.bag
	default:
		return c.coat
	}
}

// partMarks are the details that let a piece be followed: buttons, pockets,
// cuffs, stripes, laces.
func partMarks(s shape, b Build, c cloth) []mark {
	h, tr := b.Height, b.Trunk*b.Height
	g := h * b.Girth
	in := func(t tone) paint { return paint{tone: t, weave: c.weave / 2} }
	w, l := s.box.x1-s.box.x0, s.box.y1-s.box.y0
	strip := func(at, thick, wide float64, t tone) mark {
		y, x, m := s.box.y0+at*l, wide*w/2, (s.box.x0+s.box.x1)/2
		return mark{[]Point{{m - x, y}, {m + x, y}, {m + x, y + thick*l}, {m - x, y + thick*l}}, in(t)}
	}
	switch s.name {
	case trunk:
		marks := []mark{
			{[]Point{{-0.104 * g, -0.02 * tr}, {0.104 * g, -0.02 * tr}, {0.106 * g, 0.055 * tr}, {-0.106 * g, 0.055 * tr}}, in(c.coat.lit(0.6))},
			{[]Point{{-0.106 * g, -0.84 * tr}, {-0.078 * g, -0.86 * tr}, {0.02 * g, -0.02 * tr}, {-0.02 * g, -0.02 * tr}}, in(c.bag)},
		}
		for i := range 5 {
			marks = append(marks, mark{ellipse(0.045*g, (-0.76+0.2*float64(i))*tr, 0.013*g, 0.013*g, 10), in(c.coatMark)})
		}
		return marks
	case nearUpperArm, farUpperArm:
		return []mark{strip(0.42, 0.13, 0.82, c.coatMark)}
	case nearForearm, farForearm:
		return []mark{strip(0.66, 0.16, 0.78, c.coatMark.toward(c.coat, 0.25))}
	case nearShin, farShin:
		return []mark{strip(0.3, 0.08, 0.74, c.leg.lit(1.5)), strip(0.52, 0.08, 0.68, c.leg.lit(1.5))}
	case nearThigh, farThigh:
		return []mark{strip(0.72, 0.1, 0.6, c.leg.lit(0.7))}
	case nearFoot, farFoot:
		return []mark{strip(0.84, 0.16, 0.94, c.shoe.lit(0.5))}
	case scarf:
		return []mark{strip(0.35, 0.2, 0.9, c.scarf.lit(0.7))}
	case hat:
		return []mark{strip(0.68, 0.2, 0.88, c.hat.lit(0.62))}
	case bag:
		return []mark{strip(0.42, 0.1, 0.86, c.bag.lit(0.6))}
	case nearEye, farEye:
		return []mark{{ellipse(0.2*s.box.x1, -0.35*s.box.y1, 0.3*s.box.x1, 0.25*s.box.y1, 8), in(grey(230))}}
	case head:
		hd := b.Head * h
		return []mark{{smooth([]Point{{-0.38 * hd, -0.66 * hd}, {-0.44 * hd, -0.5 * hd}, {-0.36 * hd, -0.24 * hd}, {-0.2 * hd, -0.3 * hd}, {-0.16 * hd, -0.66 * hd}}), in(c.bag.lit(0.8))}, {ellipse(0.16*hd, -0.2*hd, 0.1*hd, 0.022*hd, 12), in(c.skin.lit(0.6))}}
	case ball:
		r := s.box.x1
		return []mark{
			{[]Point{{-0.2 * r, -0.97 * r}, {0.2 * r, -0.97 * r}, {0.2 * r, 0.97 * r}, {-0.2 * r, 0.97 * r}}, in(c.coatMark)},
			{ellipse(0.55*r, 0, 0.2*r, 0.2*r, 14), in(c.hat)},
		}
	}
	return nil
}

// draw paints one piece at m, a map from its own coordinates to the canvas.
func (k *costume) draw(b *brush, c *canvas, s *shape, i int, m affine, inner []Point) {
	if k.ink > 0 && s.name != nearEye && s.name != farEye {
		b.fill(c, m, s.outline, s.box, paint{tone: k.tone})
		b.fill(c, m, inner, s.box, k.base[i])
	} else {
		b.fill(c, m, s.outline, s.box, k.base[i])
	}
	for _, d := range k.marks[i] {
		b.fill(c, m, d.outline, s.box, d.paint)
	}
}
