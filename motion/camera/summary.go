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
	moveShare = 0.02
	zoomShare = 0.02
	// leadShare is how much smaller the lesser direction is where a move has
	// one direction only.
	leadShare = 0.35
	// shakeShare is the part of all travel that goes back and forth from which
	// the camera is held by hand.
	shakeShare = 0.5
)

// Summarise says what the camera did over a shot of w by h pixels, given the
// step to each of its frames (that to the first is not looked at).
func Summarise(steps []Similarity, w, h int, rate float64) Summary {
	s := Summary{Kind: Still, Zoom: 1}
	total := Identity
	wander, path := 0.0, 0.0
	var x, y float64
	for i, st := range steps {
		if i == 0 {
			continue
		}
		total = total.Then(st)
		wander = math.Max(wander, total.Reach(w, h))
		x, y = x-st.TX, y-st.TY
		path += math.Hypot(st.TX, st.TY)
		s.Zoom *= st.Scale()
	}
	s.TravelX, s.TravelY = x, y
	if wander <= stillReach*float64(w) {
		return s
	}
	s.Kind = s.kind(w, path)
	return s
}

func (s Summary) kind(w int, path float64) string {
	ax, ay := math.Abs(s.TravelX)/float64(w), math.Abs(s.TravelY)/float64(w)
	net := math.Hypot(ax, ay) * float64(w)
	zoom := math.Abs(math.Log(s.Zoom))
	moves, zooms := net >= moveShare*float64(w), zoom >= zoomShare
	switch {
	case path > 0 && net < (1-shakeShare)*path && !zooms:
		return Handheld
	case moves && zooms:
		return Mixed
	case zooms && s.Zoom > 1:
		return Push
	case zooms:
		return Pull
	case moves && ay <= leadShare*ax:
		return Pan
	case moves && ax <= leadShare*ay:
		return Tilt
	case moves:
		return Mixed
	}
	return Handheld
}
