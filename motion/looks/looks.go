// Package looks reads turns of a head or of eyes, and the rests between them, out of
// how far what is inside goes against its rim, frame by frame. It knows numbers only,
// no pictures.
package looks

import (
	"math"
	"slices"
)

// Ways a look goes, as the screen has them.
const (
	Left  = "left"
	Right = "right"
	Up    = "up"
	Down  = "down"
)

// Kinds of looks.
const (
	Dart = "dart" // small
	Turn = "turn" // of the whole head
)

// A Look is one turn of a head or of eyes, from the first frame on which it has
// changed to the first on which it rests again.
type Look struct {
	Kind       string
	Way        string
	Start, End int
	Peak       int     // the frame to which it goes farthest
	Size       float64 // how far, against the width of the part
	Rest       int     // frames from End on before the next look or the end
	Cut        bool    // the rest is cut off: by the end, or because the part was lost
}

const (
	// stirShare is the least step of a look, against the part's width: one degree or
	// so of a head, which is a ball to the camera.
	stirShare = 0.008
	// stirLeast is the same in pixels: points are followed to about a tenth of one.
	stirLeast = 0.3
	// noiseTimes is how far over the usual step of a resting part a step must be.
	noiseTimes = 6.0
	// ownShare is the share of the part's own way that a step must be: where a head is
	// swung about, it tips and turns in the picture, and its face seems to cross it.
	ownShare = 0.5
	// tailShare is the share of a look's own largest step from which the steps beside
	// it belong to it: eases come and go slowly.
	tailShare = 0.1
	// leastShare is the least size of a look, against the part's width: two degrees.
	leastShare = 0.018
	// turnShare is the size from which a look is one of the whole head: about thirty
	// degrees, half of it as seen from before (common practice, no source).
	turnShare = 0.25
	// together is the most still frames between two steps of one look at 24 frames a
	// second, drawn on twos.
	together   = 1
	customRate = 24.0
)

// A Series is what was measured of a part, one value a frame: how far the inside went
// against the rim on the way to it, pixels; NaN where that is not known.
type Series struct {
	X, Y  []float64
	Own   []float64 // how far the part itself goes, pixels; nil where it rests
	Width float64   // of the part, pixels
	Rate  float64   // frames a second
	Eyes  bool      // only heads turn
}

// Find tells looks in order of their starts. Frames count from the start of the
// series.
func Find(s Series) []Look {
	limit := s.limit()
	var list []Look
	for i := 0; i < len(s.X); i++ {
		if s.step(i) < s.limitAt(i, limit) {
			continue
		}
		l, next := s.look(i, limit)
		if l.Size >= leastShare {
			list = append(list, l)
		}
		i = next - 1
	}
	s.rest(list)
	return list
}

// step is how far the look goes on the way to frame i, pixels.
func (s Series) step(i int) float64 {
	if i < 0 || i >= len(s.X) || math.IsNaN(s.X[i]) {
		return 0
	}
	return math.Hypot(s.X[i], s.Y[i])
}

// limitAt is the least step of a look on the way to frame i, where it is limit for a
// part that rests.
func (s Series) limitAt(i int, limit float64) float64 {
	if i < len(s.Own) && !math.IsNaN(s.Own[i]) {
		return max(limit, ownShare*s.Own[i])
	}
	return limit
}

// limit is the step from which a part does not rest, pixels. Most parts rest most of
// the time: the median step is that of rest.
func (s Series) limit() float64 {
	var all []float64
	for i := range s.X {
		if !math.IsNaN(s.X[i]) {
			all = append(all, s.step(i))
		}
	}
	usual := 0.0
	if len(all) > 0 {
		slices.Sort(all)
		usual = all[len(all)/4]
	}
	return max(stirLeast, stirShare*s.Width, noiseTimes*usual)
}

// look measures the look whose first step leads to frame first, and returns the first
// frame after it.
func (s Series) look(first int, limit float64) (Look, int) {
	last := first
	gap := max(1, int(math.Round(together*s.Rate/customRate)))
	for i := first + 1; i < len(s.X) && i-last <= gap+1; i++ {
		if s.step(i) < s.limitAt(i, limit) {
			continue
		}
		if !s.alike(last, i) {
			break
		}
		last = i
	}
	first, last = s.tails(first, last)
	l := Look{Start: first, End: last, Peak: first, Kind: Dart}
	x, y := 0.0, 0.0
	for i := first; i <= last; i++ {
		if s.step(i) == 0 {
			continue
		}
		x, y = x+s.X[i], y+s.Y[i]
		if s.step(i) > s.step(l.Peak) {
			l.Peak = i
		}
	}
	l.Way, l.Size = way(x, y), math.Hypot(x, y)/s.Width
	if l.Size >= turnShare && !s.Eyes {
		l.Kind = Turn
	}
	return l, last + 1
}

// alike reports whether two steps go the same way, within sixty degrees.
func (s Series) alike(i, k int) bool {
	return s.X[i]*s.X[k]+s.Y[i]*s.Y[k] > 0.5*s.step(i)*s.step(k)
}

// tails takes in the steps beside a look that belong to it.
func (s Series) tails(first, last int) (int, int) {
	most := 0.0
	for i := first; i <= last; i++ {
		most = max(most, s.step(i))
	}
	limit := max(stirLeast/2, tailShare*most)
	for first > 1 && s.step(first-1) >= limit && s.alike(first, first-1) {
		first--
	}
	for last+1 < len(s.X) && s.step(last+1) >= limit && s.alike(last, last+1) {
		last++
	}
	return first, last
}

// way names the way of a step by the longer of its sides.
func way(x, y float64) string {
	switch {
	case math.Abs(x) >= math.Abs(y) && x < 0:
		return Left
	case math.Abs(x) >= math.Abs(y):
		return Right
	case y < 0:
		return Up
	}
	return Down
}

// rest tells how long each look rests before the next one.
func (s Series) rest(list []Look) {
	for i := range list {
		l := &list[i]
		end := len(s.X)
		if i+1 < len(list) {
			end = list[i+1].Start
		}
		l.Cut = i+1 == len(list)
		for k := l.End + 1; k < end; k++ {
			if math.IsNaN(s.X[k]) {
				end, l.Cut = k, true
			}
		}
		l.Rest = end - l.End
	}
}

// Settings are the thresholds that decide what a look is.
func Settings() map[string]any {
	return map[string]any{
		"look_stir_share":  stirShare,
		"look_stir_px":     stirLeast,
		"look_noise_times": noiseTimes,
		"look_own_share":   ownShare,
		"look_tail_share":  tailShare,
		"look_least_share": leastShare,
		"look_turn_share":  turnShare,
	}
}
