package camera

// A Step is the camera's own motion from one frame to the next. A point p of
// the still world is seen at
//
//	c + Zoom*R(Roll)*(p - c) - (DX, DY)
//
// in the later frame, where c is the middle of the picture: positive DX means
// that the camera turned to the right and the picture moved left.
type Step struct {
	DX, DY float64 // pixels
	Roll   float64 // degrees, positive turns the picture clockwise as seen
	Zoom   float64 // scale factor, 1 for none
}

// A Summary describes the camera over a shot.
type Summary struct {
	Kind             string  // still, pan, tilt, push, pull, handheld, mixed, unknown
	TravelX, TravelY float64 // net travel in pixels
	Zoom             float64 // scale of the last frame over the first
}
