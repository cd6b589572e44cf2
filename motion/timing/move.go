package timing

import (
	"math"
	"slices"
)

const (
	// settleShare is the share of its peak's speed under which a move settles: what
	// goes on so slowly reads as the pose arriving (common practice, no source).
	settleShare = 0.25
	// arcDrawings is the fewest drawings of a move whose arc can be told smooth
	// from not: three speeds have one bend at the most.
	arcDrawings = 5
)

// A Move is the texture of one move.
type Move struct {
	Smoothness float64 // spectral arc length; NaN where it has too few drawings
	Settle     int     // frames at its end that go slower than settleShare of its peak
	Hitches    []Hitch
	Spacing    Spacing // read by Space, from another measure of travel
}

// Read reads the texture of the move from start to end out of what each frame
// travels from the one before. The step onto the pose that follows is the
// move's.
func Read(travel []float64, start, end int, w Way) Move {
	p := Drawn(travel, start, end+1, w)
	m := Move{Smoothness: math.NaN(), Settle: p.settle(end)}
	if len(p.Speed) >= arcDrawings {
		m.Smoothness = SpectralArcLength(p.Speed, p.Rate)
		m.Hitches = p.hitches()
	}
	return m
}

// Later returns the same with its frames counted from an earlier one.
func (m Move) Later(frames int) Move {
	m.Hitches, m.Spacing = slices.Clone(m.Hitches), m.Spacing.Later(frames)
	for i := range m.Hitches {
		m.Hitches[i].Frame, m.Hitches[i].End = m.Hitches[i].Frame+frames, m.Hitches[i].End+frames
	}
	return m
}

// settle is for how many frames, up to the last one of a move, nothing goes
// faster than settleShare of the peak.
func (p Profile) settle(last int) int {
	limit := settleShare * p.most()
	for k := len(p.Speed) - 1; k >= 0; k-- {
		if p.Speed[k] >= limit {
			if k+1 == len(p.Speed) {
				return 0
			}
			return max(0, last-p.Frames[k+1]+1)
		}
	}
	return 0
}

// Settings returns the thresholds in force, for the sheet.
func Settings() map[string]any {
	return map[string]any{
		"settle_share":        settleShare,
		"eased_share":         easedShare,
		"ease_drawings_least": easeDrawings,
		"arc_drawings_least":  arcDrawings,
		"arc_band_hz":         arcBand,
		"arc_spectrum_least":  arcLeast,
		"hitch_drawings":      hitchDrawings,
		"hitch_seconds_most":  hitchSeconds,
		"hitch_steady_share":  hitchSteady,
		"hitch_fast_share":    hitchFast,
		"hitch_depth_least":   hitchDepth,
	}
}
