package feet

// A Line is where the ground lies, shown by hand: two places in the picture of a
// stretch's first frame, apart from each other across.
type Line struct{ X0, Y0, X1, Y1 float64 }

// at is the height of the line at a column, pixels.
func (l Line) at(x float64) float64 {
	return l.Y0 + (l.Y1-l.Y0)*(x-l.X0)/(l.X1-l.X0)
}

// lineShare is how far above or below a line that is shown, in figure heights, the
// low points of a figure are on the ground: a line drawn by eye is no truer, and
// feet side by side stand at two depths.
const lineShare = 0.06

// onLine reports whether a place of frame t lies on the ground that was shown.
func (s *Stretch) onLine(t int, x, y, height float64) bool {
	gx, gy := s.ground(t, 0, x, y)
	d := gy - s.Line.at(gx)
	reach := lineShare * height * s.Path[0].Scale() / s.Path[t].Scale() // height is frame t's
	return d <= reach && d >= -reach
}
