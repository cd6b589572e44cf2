package scene

import "math"

// A Stretch says how the drawings of a figure change from frame From to frame
// To of its shot; outside all stretches they change on every frame.
type Stretch struct {
	From, To int
	On       int  // frames each drawing stays up: 1, 2, 3, ...
	Stepped  bool // poses of the keys pop without in-betweens
}

// drawingAt returns the instant whose drawing is up at t, the frames that its
// pattern keeps drawings up, and whether it is stepped. On ones the instant is
// t itself, fractions and all.
func drawingAt(list []Stretch, t float64) (shown float64, on int, stepped bool) {
	frame := int(math.Floor(t + 0.5))
	for _, s := range list {
		if frame < s.From || frame > s.To {
			continue
		}
		on := max(1, s.On)
		if on == 1 && !s.Stepped {
			return t, 1, false
		}
		return float64(s.From + (frame-s.From)/on*on), on, s.Stepped
	}
	return t, 1, false
}

// A Conform repeats whole pictures, grain and all, as a change of rate without
// new pictures does: of every Of frames shown only New are new ones. The zero
// Conform shows each picture once.
type Conform struct{ New, Of int }

// source returns the drawn frame that shown frame f repeats or is.
func (c Conform) source(f int) int {
	if c.Of == 0 {
		return f
	}
	return f * c.New / c.Of
}

// shown returns how many frames n drawn ones become.
func (c Conform) shown(n int) int {
	if c.Of == 0 {
		return n
	}
	return n * c.Of / c.New
}

// times is the number of frames every picture stays up, 1 when that differs
// from picture to picture.
func (c Conform) times() int {
	if c.Of == 0 || c.Of%c.New != 0 {
		return 1
	}
	return c.Of / c.New
}
