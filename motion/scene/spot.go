package scene

// pieceNames are those pieces of a figure that can be asked after, by what a
// person would call them. The eyes count as one.
var pieceNames = map[string][]partName{
	"head":         {head},
	"eyes":         {nearEye, farEye},
	"near hand":    {nearHand},
	"far hand":     {farHand},
	"near forearm": {nearForearm},
	"far forearm":  {farForearm},
	"trunk":        {trunk},
}

// PartBox returns the box of a part of a figure on a frame, whether it is hidden or
// not; false where there is no such figure or part in the shot.
func (sc *Scene) PartBox(figure, part string, frame int) (Box, bool) {
	n := sc.spec.Conform.source(frame)
	sh, _, _ := sc.shotsAt(n)
	v := sc.viewOf(sh, float64(n-sh.start)).onto(sc.Width, sc.Height)
	for i := range sh.cast {
		a := &sh.cast[i]
		pieces := a.pieces()
		if a.name != figure || len(pieces) < int(parts) || len(pieceNames[part]) == 0 {
			continue
		}
		places := make([]affine, len(pieces))
		a.placeAt(float64(n-sh.start), places)
		b := nothing
		for _, k := range pieceNames[part] {
			for _, p := range pieces[k].outline {
				b = b.with(v.mul(places[k]).at(p))
			}
		}
		return Box{b.x0, b.y0, b.x1, b.y1}, true
	}
	return Box{}, false
}

// MarkBox is the box that a person would draw around a part: a little larger, and
// around the lids between which eyes move.
func (sc *Scene) MarkBox(figure, part string, frame int) (Box, bool) {
	b, ok := sc.PartBox(figure, part, frame)
	rim := 0.006 * float64(sc.Height)
	if part == "eyes" {
		rim = 0.4 * (b.Y1 - b.Y0)
	}
	return Box{b.X0 - rim, b.Y0 - rim, b.X1 + rim, b.Y1 + rim}, ok
}
