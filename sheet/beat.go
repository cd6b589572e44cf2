package sheet

// Kinds of beats and of holds.
const (
	KindHold = "hold" // a pose kept
	KindMove = "move" // a stretch of change

	HoldFrozen = "frozen" // no visible change
	HoldMoving = "moving" // alive, below the move threshold
)

// A Beat is a stretch with one intention, a hold or a move. The beats of one
// figure follow each other without gap or overlap; figure 0 stands for the
// whole picture.
type Beat struct {
	ID       int     `json:"id"` // from 1, given by Complete
	Shot     int     `json:"shot"`
	Figure   int     `json:"figure"`
	Kind     string  `json:"kind"`
	Start    int     `json:"start"`
	End      int     `json:"end"`
	Frames   int     `json:"frames"`   // given by Complete
	Seconds  float64 `json:"seconds"`  // given by Complete
	Timecode string  `json:"timecode"` // of Start, given by Complete

	Hold string `json:"hold,omitempty"` // of a hold: HoldFrozen or HoldMoving

	Peak    *int     `json:"peak,omitempty"`     // of a move: the frame whose change is largest
	Size    *float64 `json:"size,omitempty"`     // of a move: against the clip's biggest, 0 to 1
	EaseIn  *int     `json:"ease_in,omitempty"`  // of a move: frames from start to peak
	EaseOut *int     `json:"ease_out,omitempty"` // of a move: frames from peak to end

	Texture *Texture `json:"texture,omitempty"` // of a move
}

// NewHold returns a hold from start to end; kind is HoldFrozen or HoldMoving.
func NewHold(shot, figure, start, end int, kind string) Beat {
	return Beat{Shot: shot, Figure: figure, Kind: KindHold, Start: start, End: end, Hold: kind}
}

// NewMove returns a move from start to end with its peak inside and its size
// from 0 to 1.
func NewMove(shot, figure, start, end, peak int, size float64) Beat {
	in, out := peak-start, end-peak
	return Beat{
		Shot: shot, Figure: figure, Kind: KindMove, Start: start, End: end,
		Peak: &peak, Size: &size, EaseIn: &in, EaseOut: &out,
	}
}

// words returns what a reviewer calls the beat.
func (b Beat) words() string {
	if b.Hold != "" {
		return b.Hold + " hold"
	}
	return b.Kind
}
