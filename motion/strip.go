package motion

import (
	"holdfast/motion/camera"
	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/strip"
)

// addRows adds the first n of the frames kept to the shot's ground strip. Frames
// of the contacts count from the first of them.
func (s *shot) addRows(found *figure.Found, n int, contacts []feet.Contact) {
	frames := &strip.Frames{First: s.first, Rate: s.o.Rate, Path: s.wholePath(n), Layers: s.layers[:n], Bodies: found.Bodies}
	var spots []strip.Spot
	for _, c := range contacts {
		spots = append(spots, strip.Spot{
			Start: s.first + c.Start, End: s.first + c.End, X: c.X, Y: c.Y, LastX: c.LastX, LastY: c.LastY,
			Slip: c.Slip, Height: found.Figures[c.Figure].HeightPx,
		})
	}
	s.strip.Add(frames, spots)
}

// wholePath is the camera's way from the shot's first frame to each of the first
// n kept.
func (s *shot) wholePath(n int) []camera.Similarity {
	at := camera.Identity
	for _, c := range s.camera {
		at = at.Then(c)
	}
	var path []camera.Similarity
	for _, st := range s.steps[:n] {
		at = at.Then(st.fit.Motion)
		path = append(path, at)
	}
	return path
}

// addStrip adds the shot's ground strip to the result, unless nothing stands.
func (s *shot) addStrip(r *Result, index int) {
	if len(s.strip.Rows) == 0 {
		return
	}
	s.strip.Shot = index
	r.Strips = append(r.Strips, s.strip)
	strip.Fit(r.Strips, strip.Budget)
}
