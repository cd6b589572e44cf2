// Package beats reads holds, moves, peaks and the exposure pattern out of the
// travel of a figure, frame by frame. It knows numbers only, no pictures.
package beats

// Kinds of beats and of holds, in the words of the sheet.
const (
	Hold   = "hold"   // a pose kept
	Move   = "move"   // a stretch of change
	Frozen = "frozen" // a hold without visible change
	Moving = "moving" // a hold that is alive below the move threshold
)

// A Beat is a stretch of frames with one intention.
type Beat struct {
	Kind       string  // Hold or Move
	Start, End int     // frames, both ends included
	Hold       string  // Frozen or Moving; empty for a move
	Peak       int     // move: the frame whose mean travel from the frame before is largest; -1 for a hold
	Travel     float64 // move: mean travel of the figure over the whole move, figure heights
	Size       float64 // move: Travel against that of the clip's biggest move, 0..1
	EaseIn     int     // move: frames from start to peak
	EaseOut    int     // move: frames from peak to end
}

// An Exposure says how long each drawing stays up from Start to End.
type Exposure struct {
	Start, End       int
	Pattern          string  // Ones, Twos, Threes, Fours or Stepped
	FramesPerDrawing float64 // mean over the stretch, poses kept and repeated pictures left out
}

// Repeats describes a clip in which the whole picture, grain and all, repeats
// the frame before in a fixed pattern, as a conform from another rate leaves it.
type Repeats struct {
	Every int // one frame in this many repeats the one before
	First int // the first repeated frame
}
