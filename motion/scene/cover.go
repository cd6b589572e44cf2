package scene

// Cover returns what tells whether a point of the picture lies on a figure on a frame,
// with all that it wears; false where the shot has no such figure.
func (sc *Scene) Cover(figure string, frame int) (on func(p Point) bool, ok bool) {
	n := sc.spec.Conform.source(frame)
	sh, _, _ := sc.shotsAt(n)
	v := sc.viewOf(sh, float64(n-sh.start)).onto(sc.Width, sc.Height)
	for i := range sh.cast {
		a := &sh.cast[i]
		if a.name != figure {
			continue
		}
		pieces := a.pieces()
		undo := make([]affine, len(pieces))
		a.placeAt(float64(n-sh.start), undo)
		for k := range undo {
			undo[k] = v.mul(undo[k]).inverse()
		}
		return func(p Point) bool {
			for k, m := range undo {
				if pieces[k].contains(m.at(p)) {
					return true
				}
			}
			return false
		}, true
	}
	return nil, false
}
