package parts

import (
	"image"
	"math"
	"slices"

	"holdfast/motion/flow"
)

// A head that turns keeps its outline, and the face goes across it; eyes that turn
// keep their lids, and the head around them its place. So a look is what the inside
// of a part does against its rim.

// A Gaze says how a part is looked at for where it looks.
type Gaze int

// The gazes.
const (
	NoGaze   Gaze = iota
	HeadGaze      // the inside of the box against its rim
	EyesGaze      // the box against what lies around it
)

const (
	// gazeSide is how many points a side a look is measured by.
	gazeSide = 15
	// innerShare is how much of a head's box, from the middle, holds the face.
	innerShare = 0.7
	// aroundShare is how far around a box of eyes, in shares of its longer side, the
	// head is looked at.
	aroundShare = 0.5
	// gazeSquare is the side of the squares compared, in shares of the shorter side, and
	// squareSmall the least of it, pixels.
	gazeSquare, squareSmall = 0.2, 5
	// featureStirs is how far a feature must go against the rim to have moved, pixels,
	// and featureShare the share of the contrast inside that must have.
	featureStirs, featureShare = 0.25, 0.12
	// coreWide and coreHigh are how much of a head's box holds the face and no hair.
	coreWide, coreHigh = 0.8, 0.5
	// darkLevels is how far under the median of a face its dark is, darkArea the share
	// of the face that must be as dark as that again to be told, and darkLeast how far
	// its middle must go, in widths of the box, to say which way.
	darkLevels, darkArea, darkLeast = 20.0, 0.01, 0.01
	// plainest is the contrast, levels, of a square that holds something to follow.
	plainest = 12.0
	// groundAgrees is within how many pixels a point goes as the still world does.
	groundAgrees = 0.3
	// leastInside is the fewest features that say where a face goes.
	leastInside = 3
)

// looks measures the step of a look over a hop on which the box goes by some way: how
// far, in pixels, what is inside goes against the rim. ok is false where too little
// can be followed.
func (g Gaze) looks(h hop, b Box, by flow.Point) (x, y float64, ok bool, err error) {
	inside, rim := g.points(h, b)
	side := max(squareSmall, min(squareMost, int(gazeSquare*min(b.W, b.H))|1))
	out, err := gazeDrifts(h, rim, side, by)
	if err != nil {
		return 0, 0, false, err
	}
	in, err := gazeDrifts(h, inside, side, by)
	if err != nil {
		return 0, 0, false, err
	}
	if resting := stays(out); 2*len(resting) < len(out) {
		// The head goes: what stays is the ground beside it.
		out = slices.DeleteFunc(out, drift.still)
		in = slices.DeleteFunc(in, drift.still)
	}
	if len(in) < leastInside {
		return 0, 0, false, nil
	}
	rx, ry := by.X, by.Y
	if len(out) >= leastPoints {
		rx, ry = median(out, func(d drift) float64 { return d.to.X - d.from.X }), median(out, func(d drift) float64 { return d.to.Y - d.from.Y })
	}
	x, y = crossing(h.from, in, side, rx, ry)
	if math.Hypot(x, y) > featureStirs {
		x, y = g.weigh(h, b, flow.Point{X: rx, Y: ry}, x, y)
	}
	return x, y, true, nil
}

// core is the part of a box that holds the features and nothing else.
func (g Gaze) core(b Box) Box {
	if g == EyesGaze {
		return b
	}
	m := b.middle()
	return Box{m.X - coreWide*b.W/2, m.Y - coreHigh*b.H/2, coreWide * b.W, coreHigh * b.H}
}

// weigh holds what points say of a look against the way of what is dark in the face,
// eyes above all. A dart of one frame takes features farther than they lie apart, and
// points then go from one to another; the dark as a whole knows which way they went.
func (g Gaze) weigh(h hop, b Box, by flow.Point, x, y float64) (float64, float64) {
	before, ok := dark(h.from, g.core(b))
	after, there := dark(h.to, g.core(b.moved(by.X, by.Y, 1)))
	if !ok || !there {
		return x, y
	}
	dx, dy := after.X-before.X-by.X, after.Y-before.Y-by.Y
	d, v := math.Hypot(dx, dy), math.Hypot(x, y)
	if d < darkLeast*b.W || x*dx+y*dy > 0 {
		return x, y
	}
	k := max(1, v/d)
	return k * dx, k * dy
}

// dark is the middle of what is darker in a box than most of it.
func dark(p *image.Gray, b Box) (flow.Point, bool) {
	r := b.pixels().Intersect(image.Rectangle{Max: p.Rect.Size()})
	var all []uint8
	for y := r.Min.Y; y < r.Max.Y; y++ {
		all = append(all, p.Pix[y*p.Stride+r.Min.X:y*p.Stride+r.Max.X]...)
	}
	if len(all) == 0 {
		return flow.Point{}, false
	}
	slices.Sort(all)
	usual := float64(all[len(all)/2]) - darkLevels
	var sum, x, y float64
	for j := r.Min.Y; j < r.Max.Y; j++ {
		for i := r.Min.X; i < r.Max.X; i++ {
			if w := usual - float64(p.Pix[j*p.Stride+i]); w > 0 {
				sum, x, y = sum+w, x+w*float64(i), y+w*float64(j)
			}
		}
	}
	if sum < darkLevels*float64(len(all))*darkArea {
		return flow.Point{}, false
	}
	return flow.Point{X: x / sum, Y: y / sum}, true
}

// still reports whether a point goes as the still world does.
func (d drift) still() bool { return d.against() <= groundAgrees }

func stays(by []drift) []drift {
	return slices.DeleteFunc(slices.Clone(by), func(d drift) bool { return !d.still() })
}

// points are those inside that show the look, and those of the rim that stays.
func (g Gaze) points(h hop, b Box) (inside, rim []flow.Point) {
	area := b
	if g == EyesGaze {
		d := around(b)
		area = Box{b.X - d, b.Y - d, b.W + 2*d, b.H + 2*d}
	}
	m := b.middle()
	for i := range gazeSide * gazeSide {
		u, v := (float64(i%gazeSide)+0.5)/gazeSide, (float64(i/gazeSide)+0.5)/gazeSide
		p := flow.Point{X: area.X + u*area.W, Y: area.Y + v*area.H}
		dx, dy := 2*(p.X-m.X)/b.W, 2*(p.Y-m.Y)/b.H
		r := math.Hypot(dx, dy)
		switch {
		case g == EyesGaze && math.Abs(dx) <= 1 && math.Abs(dy) <= 1 || g == HeadGaze && r <= innerShare:
			inside = append(inside, p)
		case g == EyesGaze || r <= 1:
			rim = append(rim, p)
		}
	}
	return inside, rim
}

// around is how far around a box of eyes the head is looked at, pixels.
func around(b Box) float64 { return aroundShare * max(b.W, b.H) }

// gazeDrifts follows points and leaves out what has no texture or does not come
// back.
func gazeDrifts(h hop, at []flow.Point, side int, by flow.Point) ([]drift, error) {
	at = slices.DeleteFunc(slices.Clone(at), func(p flow.Point) bool { return contrast(h.from, p, side) < plainest })
	went, missed, err := flow.PointsBy(h.from, h.to, at, side, by)
	if err != nil {
		return nil, err
	}
	var list []drift
	for i, p := range at {
		if missed[i] <= missedLeast {
			cx, cy := worldStep(h.still, p, h.from.Rect.Size())
			list = append(list, drift{p, went[i], cx, cy})
		}
	}
	return list, nil
}

// crossing is how far the features inside go against the rim, whose way is given:
// those that move, where they are enough of what can be seen there, else all.
func crossing(p *image.Gray, in []drift, side int, rx, ry float64) (x, y float64) {
	var all, part float64
	var ax, ay, px, py float64
	for _, d := range in {
		w := contrast(p, d.from, side)
		dx, dy := d.to.X-d.from.X-rx, d.to.Y-d.from.Y-ry
		all, ax, ay = all+w, ax+w*dx, ay+w*dy
		if math.Hypot(dx, dy) > featureStirs {
			part, px, py = part+w, px+w*dx, py+w*dy
		}
	}
	if part >= featureShare*all {
		return px / part, py / part
	}
	return ax / all, ay / all
}

// contrast is the difference between the brightest and the darkest pixel of a square.
func contrast(p *image.Gray, at flow.Point, side int) float64 {
	r := side / 2
	least, most := uint8(255), uint8(0)
	x0, y0 := int(at.X)-r, int(at.Y)-r
	for y := max(0, y0); y <= min(p.Rect.Dy()-1, y0+2*r); y++ {
		for x := max(0, x0); x <= min(p.Rect.Dx()-1, x0+2*r); x++ {
			v := p.Pix[y*p.Stride+x]
			least, most = min(least, v), max(most, v)
		}
	}
	return max(0, float64(most)-float64(least))
}
