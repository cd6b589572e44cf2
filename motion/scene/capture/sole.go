package capture

// levelFeet lowers feet to the ground: markers and joints lie some centimetres
// over the sole, heel and ball each by what its own lowest level says. Toes go
// along with the ball, but not into the ground, against which they bend.
func (r *Recording) levelFeet() {
	levels := make([]float64, len(r.Poses))
	for j := Heel; j <= Ball.On(Right); j++ {
		for i := range r.Poses {
			levels[i] = r.Poses[i][j].Y
		}
		level := quantile(levels, levelShare)
		for i := range r.Poses {
			p := &r.Poses[i]
			p[j].Y -= level
			if j >= Ball {
				toe := &p[j+Toe-Ball]
				toe.Y = max(toe.Y-level, min(p[j].Y, 0))
			}
		}
	}
}
