package compare

import (
	"math"
	"slices"

	"holdfast/sheet"
)

// Where a clip hardly moves, or is noisy, a frame more or less under the line
// between still and moving makes a hold or takes one away. A difference between
// beats is in doubt where the clips are in step before and after it, and as much
// moves in both on the frames that one of them holds.
const (
	// doubtSeconds is how far before and after a difference the clips must be in
	// step: a move and a half (a move takes a third of a second; common practice,
	// no source).
	doubtSeconds = 0.5
	// clearlyMore is how many times as much must move in one clip as in the other
	// on the frames at which only one of them holds. At 2 every known edit of the
	// drawn passages is told, and most of what encoding anew changes is not.
	clearlyMore = 2.0
	// hardlyMoves is the share of the clip's fast motion (of its fastest tenth)
	// that is as good as none: under half of what makes a move slight.
	hardlyMoves = 0.02
)

// doubtful reports whether the curves deny a difference between beats.
func (b both) doubtful(d *Difference) bool {
	from, to := b.span(d)
	slack := 2 * driftFrames * b.frame
	if from < -slack || to > float64(len(b.fit.pass.curve))+slack || b.outside(d, slack) {
		return false // only one of the clips has these frames
	}
	margin := doubtSeconds * b.fit.pass.rate
	from, to = max(0, from-margin), min(float64(len(b.fit.pass.curve)), to+margin)
	before, after := b.lags(from, to)
	return math.Abs(after-before) <= slack && b.alikeAt(int(from), int(math.Ceil(to)), (before+after)/2)
}

// outside reports whether the reference does not have the frames of a difference.
func (b both) outside(d *Difference, slack float64) bool {
	if d.Pass == nil {
		return false
	}
	from, to := b.warp.reference(b.instant(d.Pass.Start)), b.warp.reference(b.instant(d.Pass.End+1))
	return from*b.stretch < -slack || (to-float64(len(b.fit.reference.curve)))*b.stretch > slack
}

// span is the stretch of the pass that a difference is about.
func (b both) span(d *Difference) (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	if d.Pass != nil {
		from, to = b.instant(d.Pass.Start), b.instant(d.Pass.End+1)
	}
	if d.Reference != nil {
		from, to = min(from, b.expected(d.Reference.Start)), max(to, b.expected(d.Reference.End+1))
	}
	return from, to
}

// lags are by how many frames the pass is later before and after a stretch of
// it: at the middle one of the last bounds before and of the first after.
func (b both) lags(from, to float64) (before, after float64) {
	if b.course != nil {
		return b.course.lag, b.course.lag
	}
	var earlier, later []float64
	for _, o := range b.bounds() {
		switch lag := o.pass - b.stretch*o.ref; {
		case o.pass <= from:
			earlier = append(earlier, lag)
		case o.pass >= to:
			later = append(later, lag)
		}
	}
	before = middle(earlier[max(0, len(earlier)-boundsHeard):], from-b.stretch*b.warp.reference(from))
	after = middle(later[:min(len(later), boundsHeard)], to-b.stretch*b.warp.reference(to))
	return before, after
}

// boundsHeard is how many bounds tell the lag: those of two or three beats, so
// that a single one which is off does not.
const boundsHeard = 5

// middle is the median of a list, or another value where there is none.
func middle(list []float64, otherwise float64) float64 {
	if len(list) == 0 {
		return otherwise
	}
	return quantile(0.5, list)
}

// referenceAt is the curve of the reference on a frame of the pass.
func (b both) referenceAt(frame int, lag float64) float64 {
	return b.fit.reference.at((float64(frame) - lag) / b.stretch)
}

// alikeAt reports whether on the frames at which only one clip holds about as
// much moves in both.
func (b both) alikeAt(from, to int, lag float64) bool {
	fast := b.fit.pass.fast
	bigger := fast / b.fit.reference.fast
	if math.IsNaN(bigger) || bigger == 0 || math.IsInf(bigger, 0) {
		return false
	}
	held, moved := 0.0, 0.0
	for i := from; i < to; i++ {
		r, p := b.fit.reference.holds((float64(i)+0.5-lag)/b.stretch), b.fit.pass.holds(float64(i)+0.5)
		if r == p {
			continue
		}
		still, moving := b.fit.pass.curve[i], bigger*b.referenceAt(i, lag)
		if r {
			still, moving = moving, still
		}
		held, moved = held+still, moved+moving-hardlyMoves*fast
	}
	return moved <= clearlyMore*held
}

// holds reports whether an instant lies in a hold.
func (l *line) holds(at float64) bool {
	i, found := slices.BinarySearchFunc(l.beats, at, func(b beat, at float64) int {
		switch {
		case b.to <= at:
			return -1
		case b.from > at:
			return 1
		}
		return 0
	})
	return found && l.beats[i].Kind == sheet.KindHold
}
