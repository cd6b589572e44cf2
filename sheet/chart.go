package sheet

// A TimingChart is a move as animators chart it: a line from one pose to the next with
// a tick for each drawing, where it lies on the way between them. The way is that which
// the move goes, so that one that goes out and comes back has both halves behind each
// other.
type TimingChart struct {
	From  int // the last frame of what the move leaves
	Ticks []Tick
}

// A Tick is a drawing of a move.
type Tick struct {
	Frame int     // its first
	Share float64 // of the way, above 0 at the pose before, to 1 at the one the move lands on
}

// TimingChart is the chart of a move, out of its spacing; ok is false of holds, of poses
// that replace each other, and where nothing is known to travel. Each drawing stays up
// for as many frames as the others, so that what it travels a frame is its part of the
// way.
func (b Beat) TimingChart() (c TimingChart, ok bool) {
	if b.Texture == nil || b.Texture.Spacing == nil {
		return c, false
	}
	s, sum := b.Texture.Spacing, 0.0
	for _, v := range s.Travel {
		sum += v
	}
	if len(s.Drawings) < 2 || sum == 0 {
		return c, false
	}
	c.From = s.Drawings[0] - 1
	way := 0.0
	for i, f := range s.Drawings {
		way += s.Travel[i]
		c.Ticks = append(c.Ticks, Tick{f, way / sum})
	}
	c.Ticks[len(c.Ticks)-1].Share = 1 // whatever was rounded
	return c, true
}
