package sheet

// States of a contact.
const (
	StatePlant = "plant" // it stays put
	StateSlide = "slide" // it travels
)

// SlideShare is the slip, in figure heights, from which a contact is a slide:
// under 2 % no eye sees one, over 4 % every eye does.
const SlideShare = 0.03

// A Contact is each time something of a figure stands on the ground at one
// spot.
type Contact struct {
	ID        int     `json:"id"` // from 1
	Shot      int     `json:"shot"`
	Figure    int     `json:"figure"`
	Start     int     `json:"start"`
	End       int     `json:"end"`
	State     string  `json:"state"`
	X         float64 `json:"x"` // middle of the spot in the picture of frame Start
	Y         float64 `json:"y"`
	SlipPx    float64 `json:"slip_px"`    // travel along the ground, camera taken out, positive to the right
	SlipShare float64 `json:"slip_share"` // the same in figure heights

	Turns bool `json:"turns,omitempty"` // the foot turns on its heel or toe

	// Of a slide that does not last as long as the contact: where the foot is before
	// it goes, and where it is when it has come to rest.
	SlideStart *int `json:"slide_start,omitempty"`
	SlideEnd   *int `json:"slide_end,omitempty"`
}

// SlidesFrom says between which frames c slides.
func (c *Contact) SlidesFrom(start, end int) {
	if start > c.Start || end < c.End {
		c.SlideStart, c.SlideEnd = &start, &end
	}
}

// Slide returns the frames between which c slides, if it does.
func (c Contact) Slide() (start, end int) {
	if c.SlideStart == nil || c.SlideEnd == nil {
		return c.Start, c.End
	}
	return *c.SlideStart, *c.SlideEnd
}

// A Flight is a run of frames in which a figure touches no ground.
type Flight struct {
	ID        int     `json:"id"` // from 1
	Shot      int     `json:"shot"`
	Figure    int     `json:"figure"`
	Start     int     `json:"start"`
	End       int     `json:"end"`
	Frames    int     `json:"frames"`
	RisePx    float64 `json:"rise_px"`
	RiseShare float64 `json:"rise_share"` // in figure heights
	TravelPx  float64 `json:"travel_px"`

	// OffParabola: its body does not rise and fall as what nothing carries does, so
	// that it is not held against gravity.
	OffParabola bool `json:"off_parabola,omitempty"`

	Gravity *Gravity `json:"gravity,omitempty"` // given by Review
	Ladder  string   `json:"ladder,omitempty"`  // of one hop of several, given by Review: HopBig, HopSmall, HopAlike
}

// A FeetOut is a run of frames in which the lower rim of the picture cuts a
// figure off: nothing is said of its feet there.
type FeetOut struct {
	Shot   int `json:"shot"`
	Figure int `json:"figure"`
	Start  int `json:"start"`
	End    int `json:"end"`
}

// An Impact is the instant a free object meets the ground.
type Impact struct {
	Shot        int      `json:"shot"`
	Figure      int      `json:"figure"`
	Frame       float64  `json:"frame"`                 // to a fraction of a frame
	Restitution *float64 `json:"restitution,omitempty"` // ratio of the flight after to the flight before
}
