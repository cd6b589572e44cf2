package camera

import "math"

// Kinds of camera, in the words of the sheet.
const (
	Still    = "still"
	Pan      = "pan"
	Tilt     = "tilt"
	Push     = "push"
	Pull     = "pull"
	Handheld = "handheld"
	Mixed    = "mixed"
	Unknown  = "unknown"
)

const (
	// stillReach is how far, as a share of the picture's width, a corner may
	// wander in a shot whose camera stands: under three pixels of the working
	// picture, what a tripod on a wooden floor does.
	stillReach = 0.004
	// moveShare is the least travel, as a share of the picture's width, and
	// zoomShare the least change of scale, of a move that a reviewer would name.
	// A turn counts by what it moves the sides of the picture.
	moveShare = 0.02
	zoomShare = 0.02
	// leadShare is how much smaller the lesser direction is where a move has
	// one direction only.
	leadShare = 0.35
	// swayFactor is how many times its shake a hand strays over a shot without
	// meaning to: it sways some twenty times as far as it trembles (reckoned for
	// the hand of package scene; common practice, no source). A move goes farther
	// by as much again.
	swayFactor = 40.0
)

// Summarise says what the camera did over a shot of w by h pixels, given the
// step to each of its frames (that to the first is not looked at).
func Summarise(steps []Similarity, w, h int, rate float64) Summary {
	s := Summary{Kind: Still, Zoom: 1}
	if len(steps) == 0 {
		return s
	}
	way := newWay(steps, w, h)
	last := len(steps) - 1
	s.TravelX, s.TravelY, s.Zoom = way.x[last], way.y[last], math.Exp(way.zoom[last])
	if way.wander > stillReach*float64(w) {
		s.Kind = way.kind(w, rate)
	}
	return s
}

// A way is where the camera is on each frame of a shot, from the first on.
type way struct {
	x, y   []float64 // pixels
	zoom   []float64 // logarithm of the scale
	roll   []float64 // radians
	wander float64   // pixels: how far a corner of the picture ever strays
}

func newWay(steps []Similarity, w, h int) *way {
	t := &way{x: []float64{0}, y: []float64{0}, zoom: []float64{0}, roll: []float64{0}}
	total := Identity
	for i, st := range steps[1:] {
		total = total.Then(st)
		t.wander = math.Max(t.wander, total.Reach(w, h))
		t.x, t.y = append(t.x, t.x[i]-st.TX), append(t.y, t.y[i]-st.TY)
		t.zoom = append(t.zoom, t.zoom[i]+math.Log(st.Scale()))
		t.roll = append(t.roll, t.roll[i]+math.Atan2(st.B, st.A))
	}
	return t
}

// kind names what the camera does by where its smooth way leads and whether it
// shakes on it, each against a floor of its own.
func (t *way) kind(w int, rate float64) string {
	shake := t.shake(w, rate)
	moves := t.moves(w, swayFactor*shake)
	switch {
	case shake > 0 && len(moves) == 0:
		return Handheld
	case len(moves) == 0:
		return Still
	case shake > 0 || len(moves) > 1:
		return Mixed
	}
	return moves[0]
}

// moves lists what a reviewer would name of a way on which the camera sways by
// so many pixels without meaning to.
func (t *way) moves(w int, sway float64) (list []string) {
	side := float64(w) / 2
	least := math.Max(moveShare*float64(w), sway)
	across, down := extent(t.x), extent(t.y)
	if math.Hypot(across, down) >= least {
		if down <= leadShare*across {
			list = append(list, Pan)
		} else if across <= leadShare*down {
			list = append(list, Tilt)
		} else {
			list = append(list, Pan, Tilt)
		}
	}
	if extent(t.zoom) >= math.Max(zoomShare, sway/side) {
		if t.zoom[len(t.zoom)-1] > 0 {
			list = append(list, Push)
		} else {
			list = append(list, Pull)
		}
	}
	if extent(t.roll)*side >= least {
		list = append(list, Mixed)
	}
	return list
}

// extent is how far apart the ends of a way lie, wherever on it they are.
func extent(way []float64) float64 {
	least, most := 0.0, 0.0
	for _, v := range way {
		least, most = math.Min(least, v), math.Max(most, v)
	}
	return most - least
}
