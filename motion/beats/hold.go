package beats

import "math"

const (
	// StillShare is the travel, in figure heights a frame, from which a step is
	// no longer still when any visible part goes that far: about the sway of a
	// breathing figure at 24 frames a second (common practice, no source).
	StillShare = 0.003
	// holdFrames is the shortest hold, in frames at 24 a second; a pose of
	// fewer reads as part of a move (common practice, no source).
	holdFrames = 4
	customRate = 24.0 // frames a second that holdFrames counts in
	// strayFactor is how far over the limit a single step between still ones may
	// lie without ending a hold, or a single spot where nothing goes as far over
	// an area: the travel of so slow a step is known to a third of it.
	strayFactor = 1.5
	// restShare is the still limit for a living figure, which is never still: its
	// rests are told by lying deep between moves. Set by eye on filmed people,
	// whose hands drift by 0.3 to 0.6 % of their height a frame while they rest.
	restShare = 0.0075
	// restDepth is the most a rest may travel against the smaller of the moves
	// before and after it.
	restDepth = 0.25
	// frozenShare is the part of the still limit under which the steps of a
	// hold show no change to the eye.
	frozenShare = 0.1
	// aliveShare is the share of a hold's steps that must show change for it to
	// be moving: the tail of an ease before a frozen pose shows some.
	aliveShare = 0.25
)

// A Series is what was measured of one figure over a shot, one value a frame:
// the step that led to it from the frame before. The first value is 0.
type Series struct {
	Max  []float64 // travel of the part that goes farthest, figure heights
	Mean []float64 // mean travel over the figure, figure heights
	// Floor is the travel that stillness can show, figure heights; nil says none.
	Floor []float64
	// Passing marks steps of a small change that soon is gone without a trace,
	// such as a blink: the pose stays; nil says none.
	Passing []bool
	// Wide and WideFloor are Max and Floor of what goes over an area and not in a
	// single spot, as whatever is alive does; nil says the same as Max and Floor.
	Wide, WideFloor []float64
	// Pace is the mean travel of what moves, the faster the heavier, figure heights:
	// the spacing of a move is read from it.
	Pace []float64
}

// Options say how to read a Series.
type Options struct {
	Rate float64 // frames a second
	// Repeats, if any, count from the start of the series.
	Repeats *Repeats
}

// MinHold returns the fewest frames of a hold.
func (o Options) MinHold() int {
	return max(2, int(math.Round(holdFrames*o.Rate/customRate)))
}

// Find tiles a shot with holds and moves. Frames count from the start of the
// series. exposure is what Exposures found in the same series.
func Find(s Series, exposure []Exposure, o Options) []Beat {
	n := len(s.Max)
	if n == 0 {
		return nil
	}
	s = s.quiet(o.Repeats)
	still := stillSteps(s, exposure, o)
	var out []Beat
	next := 0 // the first frame that no beat covers yet
	found := holds(still, exposure, o)
	if !s.anyFrozen(found, exposure, o) {
		found = s.withRests(found, exposure, o)
	}
	for _, h := range s.withoutSlivers(found) {
		if h.Start > next {
			out = append(out, move(s, next, h.Start-1))
		}
		h.Hold = s.holdKind(h.Start, h.End, exposure, o)
		out = append(out, h)
		next = h.End + 1
	}
	if next < n {
		out = append(out, move(s, next, n-1))
	}
	return out
}

// stillSteps tells for each frame whether the step to it is still. On twos and
// threes a drawing's whole travel comes in one step and is spread over the
// frames the drawing stays up. There every step stands between still ones, so
// none is let off as a stray.
func stillSteps(s Series, exposure []Exposure, o Options) []bool {
	still := make([]bool, len(s.Max))
	for i, v := range s.Max {
		up := o.framesUp(exposure, i)
		still[i] = s.passes(i) || v/up < s.limit(i, StillShare) || s.strays(i, up)
	}
	for i := 1; i+1 < len(still); i++ {
		alone := !still[i] && still[i-1] && still[i+1] && o.framesUp(exposure, i) == 1
		if alone && s.Max[i] < strayFactor*s.limit(i, StillShare) {
			still[i] = true
		}
	}
	return still
}

// strays reports whether no more than a spot goes over the limit on the step to
// frame i, whose drawing stays up for so many frames, and that by little.
func (s Series) strays(i int, up float64) bool {
	if i >= len(s.Wide) {
		return false
	}
	return s.Wide[i]/up < s.limit(i, StillShare) && s.Max[i]/up < strayFactor*s.limit(i, StillShare)
}

// framesUp returns for how many frames the drawing of a frame stays up in the
// stretch it belongs to, those included on which the whole picture repeats.
func (o Options) framesUp(exposure []Exposure, frame int) float64 {
	for _, e := range exposure {
		if frame >= e.Start && frame <= e.End && e.Pattern != Stepped {
			return math.Round(e.FramesPerDrawing) * o.Repeats.times()
		}
	}
	return o.Repeats.times()
}

// holds returns the runs of frames joined by still steps that are long enough,
// and longer than a drawing of their stretch stays up anyway.
func holds(still []bool, exposure []Exposure, o Options) []Beat {
	var out []Beat
	for start := 0; start < len(still); {
		end := start
		for end+1 < len(still) && still[end+1] {
			end++
		}
		length := end - start + 1
		if length >= o.MinHold() && float64(length) > o.framesUp(exposure, (start+end+1)/2) || length == len(still) {
			out = append(out, Beat{Kind: Hold, Start: start, End: end, Peak: -1})
		}
		start = end + 1
	}
	return out
}

// holdKind says whether a hold is frozen: none but a few stray steps show any
// travel. On twos a change stands for both frames of its drawing.
func (s Series) holdKind(start, end int, exposure []Exposure, o Options) string {
	alive := 0.0
	for i := start + 1; i <= end; i++ {
		if s.lives(i) {
			alive += o.framesUp(exposure, i)
		}
	}
	if alive > aliveShare*float64(end-start) {
		return Moving
	}
	return Frozen
}

// move describes the move from start to end.
func move(s Series, start, end int) Beat {
	b := Beat{Kind: Move, Start: start, End: end, Peak: s.peak(start, end)}
	b.EaseIn, b.EaseOut = b.Peak-start, end-b.Peak
	// The step onto the held pose that follows belongs to the move.
	for i := start; i <= min(end+1, len(s.Mean)-1); i++ {
		b.Travel += s.Mean[i]
	}
	return b
}

// Settings returns the thresholds in force, for the sheet.
func (o Options) Settings() map[string]any {
	return map[string]any{
		"still_share":            StillShare,
		"still_stray_factor":     strayFactor,
		"rest_share":             restShare,
		"rest_depth":             restDepth,
		"move_share":             moveShare,
		"frozen_share_of_still":  frozenShare,
		"alive_share":            aliveShare,
		"min_hold_frames":        o.MinHold(),
		"new_drawing_share":      newShare,
		"even_drawings":          evenDrawings,
		"longest_drawing_frames": longestUp,
		"noise_seconds":          noiseSeconds,
		"noise_floor_limit":      floorMost,
		"noise_spots_limit":      sparseMost,
		"repeat_share":           repeatShare,
		"repeat_sure":            repeatSure,
		"repeat_lively":          repeatLively,
		"repeat_longest_frames":  repeatLongest,
	}
}
