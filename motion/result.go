package motion

import (
	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/motion/poses"
	"holdfast/motion/staging"
	"holdfast/motion/strip"
	"holdfast/motion/timing"
)

// A Result is everything Measure found in one clip. Frames count from 0,
// ranges include both ends, and lengths are pixels of the working picture
// unless a field says otherwise.
type Result struct {
	Frames     int  // how many frames the source gave
	Bars       Bars // above and below the picture all through the clip
	Shots      []Shot
	Figures    []Figure
	Beats      []Beat
	Exposure   []Exposure
	Repeats    *beats.Repeats // nil unless the whole picture repeats in a fixed pattern
	Contacts   []Contact      // shot by shot, in order of their starts
	Flights    []Flight
	Impacts    []Impact
	Pops       []Pop          // what jumps and comes back, shot by shot
	Poses      []Pose         // what is held, hold by hold
	Outside    []Outside      // where feet are out of the picture
	Trails     []Trail        // where marked feet were followed to
	Parts      []Part         // what was shown by hand and followed, shot by shot
	Twins      []Twin         // parts that do the same
	Approaches []Approach     // of two figures, shot by shot
	Strips     []*strip.Strip // one for each shot in which something stands
	Curve      Curve
	Settings   map[string]any // every threshold that was in force
	Warnings   []string

	// What the beats are told from once the whole clip is measured.
	series []beats.Series  // one a shot
	shapes [][]poses.Shape // likewise, frame by frame
	halves []halves        // one a shot
	unlike []float64       // how much the still world differs from the frame before, levels
}

// A Shot is the frames between two cuts, or joins.
type Shot struct {
	Start, End int
	Join       camera.Join // by which it follows the one before; zero for a cut
	Camera     camera.Summary
}

// A Figure is one moving figure of one shot.
type Figure struct {
	ID         int // from 1, over the whole clip
	Shot       int // index into Result.Shots
	Start, End int
	HeightPx   float64
	Rooted     bool // it never leaves its place: what of it never moves may be missing
	Method     figure.Method
	Boxes      []figure.Box // one a frame from Start; empty where the figure was not seen
	Bare       []figure.Box // the same without its shadow
	Own        *Own         // what it did by itself; nil where pictures are too small to tell

	Enters, Leaves *staging.Passage // into the picture and out of it; nil where that is not known
}

// A Beat is a hold or a move of one figure; figure 0 stands for the whole
// picture with the camera taken out.
type Beat struct {
	Shot   int // index into Result.Shots
	Figure int
	beats.Beat
	Texture timing.Move // of a move
}

// An Exposure says how long each drawing stays up over a stretch of frames.
type Exposure struct {
	Shot   int // index into Result.Shots
	Figure int
	beats.Exposure
}

// A Curve holds one value a frame.
type Curve struct {
	// Motion is the mean travel of the figure from the frame before, in
	// figure heights, with the camera taken out; 0 at a shot's first frame.
	Motion []float64
	// Farthest is the travel of the part that goes farthest, in figure heights:
	// what decides whether a step is still.
	Farthest []float64
	// Bands is the mean travel of each band of the figure, in figure heights.
	Bands []Bands
	// Camera is the camera's own travel from the frame before.
	Camera []camera.Step
}
