package scene

// A partName tells the pieces of a figure apart, in the order in which they
// are drawn: what comes later hides what came before.
type partName int

const (
	farUpperArm partName = iota
	farForearm
	farHand
	farThigh
	farShin
	farFoot
	nearThigh
	nearShin
	nearFoot
	neck
	trunk
	scarf
	bag
	head
	farEye
	nearEye
	nose
	hat
	brim
	nearUpperArm
	nearForearm
	nearHand
	parts // how many there are
	ball  // the one piece of a ball
)

// bodyParts returns the pieces of a figure of build b, lengths in stage units.
func bodyParts(b Build) [parts]shape {
	h, g := b.Height, b.Height*b.Girth
	bone, arm := b.bone()*h, b.Arm*h/2
	hd, tr := b.Head*h, b.Trunk*h
	var list [parts]shape
	set := func(n partName, outline []Point) { list[n] = newShape(n, outline) }
	for _, n := range []partName{farUpperArm, nearUpperArm} {
		set(n, capsule(arm, 0.036*g, 0.028*g))
	}
	for _, n := range []partName{farForearm, nearForearm} {
		set(n, capsule(arm, 0.030*g, 0.024*g))
	}
	for _, n := range []partName{farHand, nearHand} {
		set(n, handOutline(b.Hand*h))
	}
	for _, n := range []partName{farThigh, nearThigh} {
		set(n, capsule(bone, 0.052*g, 0.036*g))
	}
	for _, n := range []partName{farShin, nearShin} {
		set(n, capsule(bone, 0.037*g, 0.025*g))
	}
	for _, n := range []partName{farFoot, nearFoot} {
		set(n, footOutline(b.Foot*h, ankleShare*h))
	}
	set(neck, capsule(0.06*h, 0.026*g, 0.03*g))
	set(trunk, trunkOutline(tr, g))
	set(scarf, ellipse(0.004*h, -0.93*tr, 0.058*g, 0.030*g, 20))
	set(bag, []Point{{-0.135 * g, -0.16 * tr}, {-0.03 * g, -0.16 * tr}, {-0.03 * g, 0.16 * tr}, {-0.05 * g, 0.2 * tr}, {-0.115 * g, 0.2 * tr}, {-0.135 * g, 0.16 * tr}})
	set(head, ellipse(0, -0.5*hd, 0.43*hd, 0.5*hd, 36))
	set(farEye, ellipse(0, 0, 0.045*hd, 0.07*hd, 12))
	set(nearEye, ellipse(0, 0, 0.05*hd, 0.075*hd, 12))
	set(nose, ellipse(0, 0, 0.085*hd, 0.065*hd, 12))
	set(hat, hatOutline(hd))
	set(brim, ellipse(0, 0, 0.26*hd, 0.06*hd, 16))
	return list
}

// trunkOutline is a coat: shoulders, waist, a skirt that ends below the hips.
// Its origin is the middle of the hips.
func trunkOutline(tr, g float64) []Point {
	return smooth([]Point{
		{-0.050 * g, -0.95 * tr}, {-0.100 * g, -0.88 * tr}, {-0.108 * g, -0.62 * tr}, {-0.088 * g, -0.25 * tr},
		{-0.105 * g, 0.10 * tr}, {-0.125 * g, 0.36 * tr}, {0, 0.40 * tr}, {0.125 * g, 0.36 * tr},
		{0.105 * g, 0.10 * tr}, {0.090 * g, -0.25 * tr}, {0.110 * g, -0.62 * tr}, {0.100 * g, -0.88 * tr}, {0.050 * g, -0.95 * tr},
	})
}

// footOutline has its origin in the ankle, a sole that is flat from heel to
// toe at y = ankle, and corners there for the foot to roll about.
func footOutline(length, ankle float64) []Point {
	heel, toe := -heelShare*length, (1-heelShare)*length
	r := min(0.55*ankle, 0.3*length)
	return []Point{
		{heel, ankle}, {heel - 0.02*length, ankle - r}, {heel + 0.04*length, -0.1 * ankle}, {-0.05 * length, -0.45 * ankle}, {0.12 * length, -0.45 * ankle},
		{0.3 * length, -0.05 * ankle}, {toe - 0.3*r, 0.25 * ankle}, {toe + 0.02*length, ankle - 0.5*r}, {toe, ankle},
	}
}

func handOutline(length float64) []Point {
	return smooth([]Point{
		{-0.28 * length, 0}, {-0.34 * length, 0.5 * length}, {-0.15 * length, length}, {0.2 * length, 0.95 * length},
		{0.3 * length, 0.6 * length}, {0.55 * length, 0.5 * length}, {0.55 * length, 0.3 * length}, {0.3 * length, 0},
	})
}

func hatOutline(hd float64) []Point {
	return smooth([]Point{
		{-0.45 * hd, -0.62 * hd}, {-0.46 * hd, -0.86 * hd}, {-0.2 * hd, -1.06 * hd}, {0.2 * hd, -1.05 * hd}, {0.44 * hd, -0.84 * hd}, {0.43 * hd, -0.66 * hd},
	})
}

// smooth rounds a polygon by cutting its corners twice (Chaikin 1974).
func smooth(outline []Point) []Point {
	for range 2 {
		var cut []Point
		for i, a := range outline {
			b := outline[(i+1)%len(outline)]
			cut = append(cut, Point{0.75*a.X + 0.25*b.X, 0.75*a.Y + 0.25*b.Y}, Point{0.25*a.X + 0.75*b.X, 0.25*a.Y + 0.75*b.Y})
		}
		outline = cut
	}
	return outline
}
