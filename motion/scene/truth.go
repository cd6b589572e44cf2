package scene

// A Truth is everything that is so in a clip, reckoned from the geometry of its
// poses. Frames are frames as shown, from 0, ranges include both ends, lengths
// are pixels of the picture.
type Truth struct {
	Frames   int
	Cuts     []int // frames on which a shot starts after a hard cut
	Joins    []int // those on which one starts after a dissolve or through black
	Shots    []ShotTruth
	Events   []Event      // changes of the picture that are no cuts
	Camera   []CameraStep // one a frame, from the frame before
	Figures  []FigureTruth
	Contacts []Contact
	Flights  []Flight
	Impacts  []Impact
	// Approaches are told of every two figures of a shot, in their order.
	Approaches []Approach
	Repeats    *Repeats // nil unless whole pictures repeat
}

// A ShotTruth is the frames that show more of one shot than of any other. In a
// dissolve only they count: a pose is kept no longer than the picture it is in.
type ShotTruth struct {
	Start, End       int
	Kind             string  // of its camera: still, pan, tilt, push, pull, handheld or mixed
	TravelX, TravelY float64 // sums of the steps
	Zoom             float64 // scale of the last frame over the first
}

// Kinds of events.
const (
	EventFade     = "fade"
	EventDissolve = "dissolve"
	EventFlash    = "flash"
	EventPass     = "pass" // something crosses close before the lens
)

// An Event is a change of the whole picture that is no cut.
type Event struct {
	Kind       string
	Start, End int
}

// A CameraStep is the camera's motion from the frame before: a point p of the
// still world is seen at c + Zoom*R(Roll)*(p-c) - (DX, DY), where c is the
// middle of the picture. Positive DX turns the camera to the right, positive
// Roll turns the picture clockwise as seen. Known is false where the frame and
// the one before show different shots; the step is then that of a still camera.
type CameraStep struct {
	DX, DY float64 // pixels
	Roll   float64 // degrees
	Zoom   float64
	Known  bool
}

// Repeats says that of every Of frames only New show a new picture.
type Repeats struct {
	New, Of int
	Every   int // one frame in this many repeats the one before; 0 where more than one does
	First   int // the first repeated frame
}

// A FigureTruth is one figure, or ball, of one shot; slices have one value for
// each frame from Start to End.
type FigureTruth struct {
	Name       string
	Ball       bool
	Shot       int       // index into Truth.Shots
	Start, End int       // first and last frame on which any of it is seen
	Height     []float64 // standing, at that frame's zoom
	Max        []float64 // largest travel of any visible point from the frame before, camera taken out
	Mean       []float64 // the same, mean over the visible area
	Box        []Box     // of what is within the picture
	Beats      []Beat
	Exposure   []Exposure
	Enters     Passage // into the picture
	Leaves     Passage // out of it

	at     []Point // the middle of its hips in the world, stage units
	stands float64 // its height in stage units
}

// A Box is an upright rectangle in pixels, all zero where nothing is seen.
type Box struct{ X0, Y0, X1, Y1 float64 }

// An Exposure says how long each drawing of a figure stays up. Pattern is ones,
// twos, threes, fours or stepped. Whole-picture repeats do not count here.
type Exposure struct {
	Start, End       int
	Pattern          string
	FramesPerDrawing float64
}

// A Contact is one stand of one foot on the ground.
type Contact struct {
	Figure     int     // index into Truth.Figures
	Foot       Side    // Near or Far
	Start, End int     // frames
	From, To   float64 // the same as instants; the shot's own ends where it lasts beyond them
	X, Y       float64 // middle of the flat sole in the picture of frame Start
	SlipPx     float64 // travel across from Start to End, camera taken out; positive to the right
	SlipShare  float64 // the same in figure heights
	Slide      bool    // slips at least SlideShare to either side
	Seen       bool    // within the picture on all its frames
	Path       []Point // middle of the flat sole in the picture of each frame from Start to End
}

// SlideShare is the slip, in figure heights, from which a contact is called a
// slide here. Nothing is drawn between 2 and 4 %, where eyes disagree.
const SlideShare = 0.03

// A Flight is a hop: frames on which neither foot stands.
type Flight struct {
	Figure        int
	Start, End    int
	Takeoff, Land float64 // instants in frames
	RisePx        float64 // from take-off to the top of the flight
	RiseShare     float64 // the same in figure heights
	TravelPx      float64 // across, positive to the right
}

// An Impact is the instant on which a ball meets the ground.
type Impact struct {
	Figure      int
	Frame       float64
	X, Y        float64 // spot in the picture as it is at that instant
	Restitution float64 // flight after over flight before, speeds alike; 0 for the last
	Last        bool    // the ball lies still from here on
}
