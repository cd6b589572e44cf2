package scene

import "math"

// Where joints sit, in shares of the height; the near side of the body is
// drawn towards its back, as in a three-quarter view.
const (
	hipApart      = 0.028
	shoulderApart = 0.080
	nearGround    = 0.010  // the near foot stands lower in the picture, the far one higher
	armSwing      = 0.9    // radians of arm per figure height between the feet
	soften        = 0.0015 // rounding of the bend where a leg reaches its full stretch
)

// place sets dst to the maps from each piece's own coordinates to the world at
// time t, in frames of the shot.
func (b *body) place(t float64, stepped bool, dst []affine) {
	p := b.pose(t, stepped)
	h := b.Build.Height
	feet := [2]footState{b.footAt(0, p, t), b.footAt(1, p, t)}
	ankles := [2]Point{}
	for i, f := range feet {
		m := b.footMap(i, f)
		ankles[i] = m.at(Point{})
		dst[[]partName{nearFoot, farFoot}[i]] = m
	}
	hips := b.hips(p, feet, ankles, t)
	b.placeLeg(dst, nearThigh, nearShin, hips.add(Point{-hipApart * h, 0}), ankles[0])
	b.placeLeg(dst, farThigh, farShin, hips.add(Point{hipApart * h, 0}), ankles[1])

	tr := shift(hips.X, hips.Y).mul(rotate(radians(p.Lean)))
	dst[trunk], dst[scarf], dst[bag] = tr, tr, tr
	top := -0.9 * b.Build.Trunk * h
	dst[neck] = tr.mul(shift(0.004*h, top-0.05*h))
	swing := armSwing * (feet[1].x - feet[0].x - 2*stance*h) / h
	b.placeArm(dst, nearUpperArm, nearForearm, nearHand, tr.mul(shift(-shoulderApart*h*b.Build.Girth, top+0.02*h)), p.Near, swing)
	b.placeArm(dst, farUpperArm, farForearm, farHand, tr.mul(shift(shoulderApart*h*b.Build.Girth, top+0.02*h)), p.Far, -swing)
	b.placeHead(dst, tr.mul(shift(0.006*h, -0.97*b.Build.Trunk*h)).mul(rotate(radians(p.Tilt))), p)

	w := b.world()
	for i := range dst {
		dst[i] = w.mul(dst[i])
	}
}

// footMap places a foot: rolled about its toe or its heel, so that the point
// that carries it stays where it is.
func (b *body) footMap(side int, f footState) affine {
	h := b.Build.Height
	ground := (nearGround - 2*nearGround*float64(side)) * h
	length := b.Build.Foot * h
	pivot := Point{-heelShare * length, ankleShare * h}
	if f.roll > 0 {
		pivot.X = (1 - heelShare) * length
	}
	// Half the foot lies before x and half behind it.
	ankle := shift(f.x-(0.5-heelShare)*length, ground-ankleShare*h-f.lift)
	return ankle.mul(shift(pivot.X, pivot.Y)).mul(rotate(radians(f.roll))).mul(shift(-pivot.X, -pivot.Y))
}

// hips returns the middle of the hips: over the feet, moved by the pose, and
// never so high that a leg would have to stretch beyond its length.
func (b *body) hips(p Pose, feet [2]footState, ankles [2]Point, t float64) Point {
	h := b.Build.Height
	air := math.Min(feet[0].lift, feet[1].lift)
	// At rest the hips are over the ankles, which lie behind the middle of the feet.
	x := sumRamps(b.plan.hips, t) + (p.Shift-0.8*(0.5-heelShare)*b.Build.Foot)*h
	up := []float64{b.Build.Leg*h - p.Crouch*h - b.crouch(t) + air, 0, 0}
	for i, a := range ankles {
		dx := x + hipApart*h*float64(2*i-1) - a.X
		r := reach * 2 * b.Build.bone() * h
		up[i+1] = -a.Y + math.Sqrt(math.Max(0, r*r-dx*dx))
	}
	return Point{x, -softMin(up, soften*h)}
}

// softMin is at most the least of the values and within k*ln(n) of it.
func softMin(values []float64, k float64) float64 {
	least := math.Inf(1)
	for _, v := range values {
		least = math.Min(least, v)
	}
	sum := 0.0
	for _, v := range values {
		sum += math.Exp((least - v) / k)
	}
	return least - k*math.Log(sum)
}

// placeLeg bends a leg of two equal bones between hip and ankle, knee forwards.
func (b *body) placeLeg(dst []affine, thigh, shin partName, hip, ankle Point) {
	bone := b.Build.bone() * b.Build.Height
	d := ankle.sub(hip)
	l := d.norm()
	bend := math.Acos(math.Min(1, l/(2*bone)))
	// A piece that hangs down turns clockwise by the angle from straight down.
	along := math.Atan2(-d.X, d.Y)
	dst[thigh] = shift(hip.X, hip.Y).mul(rotate(along - bend))
	knee := dst[thigh].at(Point{0, bone})
	dst[shin] = shift(knee.X, knee.Y).mul(rotate(along + bend))
}

func (b *body) placeArm(dst []affine, upper, fore, hand partName, shoulder affine, a Arm, swing float64) {
	bone := b.Build.Arm * b.Build.Height / 2
	dst[upper] = shoulder.mul(rotate(-radians(a.Shoulder) - swing))
	dst[fore] = dst[upper].mul(shift(0, bone)).mul(rotate(-radians(a.Elbow) - 0.4*math.Abs(swing)))
	dst[hand] = dst[fore].mul(shift(0, bone)).mul(rotate(-radians(a.Wrist)))
}

// placeHead sets head, hat and face; turns and nods move the features round a ball,
// and the eyes look about in the face.
func (b *body) placeHead(dst []affine, base affine, p Pose) {
	hd := b.Build.Head * b.Build.Height
	dst[head], dst[hat] = base, base
	front, down := radians(25+35*p.Turn), 0.3*math.Sin(radians(60*p.Nod))
	round := func(off, y float64) affine {
		return base.mul(shift(0.38*hd*math.Sin(front+radians(off)), (y+down)*hd))
	}
	look := shift(0.05*hd*p.Gaze, 0)
	dst[nearEye] = round(-22, -0.5).mul(look)
	dst[farEye] = round(22, -0.5).mul(look)
	dst[nose] = round(4, -0.36).mul(shift(0.06*hd, 0))
	dst[brim] = base.mul(shift(0.30*hd*math.Sin(front), -0.68*hd))
}
