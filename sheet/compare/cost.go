package compare

import "math"

// Prices of what may happen to a beat, against each other; a hold of half a
// second that is lost costs 1. They were chosen on drawn passages with known
// edits.
const (
	gapLeast     = 0.35 // to lose a beat of no length
	gapMost      = 1.0  // to lose one of gapSeconds or more
	gapSeconds   = 0.5
	endGap       = 0.8 // of the price, where the clips do not begin or end together
	lengthPrice  = 0.6 // of the greatest change of length
	cutShare     = 0.1 // of the price of a length that a clip cuts off: hardly known
	lengthHalf   = 4.0 // frames at 24 a second of a change that costs half of it
	shapePrice   = 0.3 // of moves whose curves go against each other
	sizePrice    = 0.2 // of a move against one that is nothing to it
	joinPrice    = 0.3 // to take several beats for one move
	joinHolds    = 0.6 // for one hold: a move in it is no trifle
	swapPrice    = 0.9 // to let two beats change places
	lightestMove = 0.3 // of the price of a move: one that is hardly seen is easily lost
)

// A scale tells what prices stand for between two lines, once the reference is
// conformed: frame r of it is frame stretch*r of the pass, but for an offset.
type scale struct {
	reference, pass *line
	stretch         float64 // frames of the pass to one of the reference
	frame           float64 // frames of the pass in 1/24 second
	course          *course // where the motion curves say that the clips are in step throughout; else nil
}

// lost is the price of a beat that the other clip does not have.
func (s *scale) lost(b *beat, length float64) float64 {
	p := gapLeast + (gapMost-gapLeast)*math.Min(1, length/(gapSeconds*24*s.frame))
	if b.Size != nil {
		p *= lightestMove + (1-lightestMove)*math.Min(1, 3**b.Size)
	}
	return p
}

// change is the price of a change of length in frames of the pass, never more
// than lengthPrice: an animator who makes a hold long may make it very long.
func (s *scale) change(frames float64) float64 {
	x := frames / (lengthHalf * s.frame)
	return lengthPrice * x * x / (1 + x*x)
}

// lengthen is the price of two lengths, either of which may be cut short by its
// clip.
func (s *scale) lengthen(reference, pass float64, cutReference, cutPass bool) float64 {
	d := pass - reference
	switch {
	case cutReference && cutPass:
		return cutShare * s.change(d) // the clips begin or end elsewhere
	case cutReference && d > 0, cutPass && d < 0:
		return cutShare * s.change(d)
	}
	return s.change(d)
}

// match is the price of taking two beats of one kind for the same.
func (s *scale) match(r, p *beat) float64 {
	price := s.lengthen(r.length()*s.stretch, p.length(), r.cut, p.cut)
	if r.hold() {
		return price
	}
	if !r.cut && !p.cut {
		price += shapePrice * (1 - likeShapes(&r.shape, &p.shape)) / 2
	}
	return price + sizePrice*unlike(r.Size, p.Size)
}

// unlike is 0 for two sizes that are the same and goes to 1 as one of them is
// nothing to the other. Small ones are hardly unlike, as each clip's are
// measured against its own biggest.
func unlike(a, b *float64) float64 {
	if a == nil || b == nil {
		return 0
	}
	const ground = 0.15
	return 1 - (math.Min(*a, *b)+ground)/(math.Max(*a, *b)+ground)
}

// likeShapes is the correlation of two shapes, -1 to 1; two that are flat are
// the same.
func likeShapes(a, b *[shapePoints]float64) float64 {
	if flat := [shapePoints]float64{}; *a == flat && *b == flat {
		return 1
	}
	return product(a[:], b[:])
}
