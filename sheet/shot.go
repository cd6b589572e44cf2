package sheet

// cameraKinds are the words for what a camera does over a shot.
var cameraKinds = map[string]bool{
	"still": true, "pan": true, "tilt": true, "push": true,
	"pull": true, "handheld": true, "mixed": true, "unknown": true,
}

// A Shot is the frames between two cuts, or other joins.
type Shot struct {
	ID     int    `json:"id"` // from 1
	Start  int    `json:"start"`
	End    int    `json:"end"`
	Join   *Join  `json:"join,omitempty"` // with the shot before; nil for a cut
	Camera Camera `json:"camera"`
}

// Kinds of joins.
const (
	JoinDissolve = "dissolve" // its frames show both pictures
	JoinFade     = "fade"     // from the last frame of the old picture to the first of the new
)

// A Join is how a shot follows the one before where that is no cut.
type Join struct {
	Kind  string `json:"kind"` // JoinDissolve or JoinFade
	Start int    `json:"start"`
	End   int    `json:"end"`
}

// words says how a shot begins: "after a dissolve, 61–72".
func (j *Join) words() string { return "after a " + j.Kind + ", " + span(j.Start, j.End) }

// A Camera says what the camera does over a shot.
type Camera struct {
	Kind    string  `json:"kind"`        // still, pan, tilt, push, pull, handheld, mixed, unknown
	TravelX float64 `json:"travel_x_px"` // net; positive: turned to the right, the picture moved left
	TravelY float64 `json:"travel_y_px"` // net; positive: tilted down
	Zoom    float64 `json:"zoom"`        // scale of the last frame over the first, above 0
}

// Methods by which a figure is told from its background.
const (
	ByHand   = "hand"   // it was shown by hand
	ByPlate  = "plate"  // it differs from the background plate
	ByMotion = "motion" // it moves; no plate could be made
)

// A Figure is one moving figure of one shot.
type Figure struct {
	ID     int     `json:"id"`   // from 1
	Shot   int     `json:"shot"` // id of its shot
	Start  int     `json:"start"`
	End    int     `json:"end"`
	Height float64 `json:"height_px"` // above 0
	Label  string  `json:"label,omitempty"`
	Method string  `json:"method,omitempty"` // ByHand, ByPlate or ByMotion

	Enters *Passage `json:"enters,omitempty"` // into the picture; nil where that is not known
	Leaves *Passage `json:"leaves,omitempty"` // out of it

	Unknown []Unknown `json:"unknown,omitempty"` // frames in which it has no beats, of a figure that has some
}

// PatternStepped is the exposure of poses that replace each other with nothing in
// between.
const PatternStepped = "stepped"

// An Exposure says how long each drawing stays up over a stretch of frames.
type Exposure struct {
	Shot             int     `json:"shot"`
	Figure           int     `json:"figure"`
	Start            int     `json:"start"`
	End              int     `json:"end"`
	Pattern          string  `json:"pattern"` // ones, twos, threes, fours, stepped, held
	FramesPerDrawing float64 `json:"frames_per_drawing"`
}

// Repeats describes a clip conformed from a slower rate: one frame in every
// Every repeats the one before, the first of them at First.
type Repeats struct {
	Every int `json:"every"`
	First int `json:"first"`
}
