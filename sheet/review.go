package sheet

import "maps"

// Bounds of the stated height of a figure in metres: a mouse's foot to a
// giant's head. DefaultFigureHeight is about that of a grown person.
const (
	MinFigureHeight     = 0.05
	MaxFigureHeight     = 100
	DefaultFigureHeight = 1.7
)

// Review derives from what was measured what a reviewer asks for: steps, what
// gravity says of each flight, the ladder of hops, the texture of timing, and
// notes. metres is how tall the figures are said to be, house has the thresholds
// (nil: the defaults). It wants a sheet that Complete went over, and is called
// once: notes are added to those that are there.
func (s *Sheet) Review(metres float64, house *House) {
	r := &review{s, house}
	s.Settings["figure_height_m"] = metres
	s.Settings["rules"] = house.settings()
	maps.Copy(s.Settings, terms())
	r.weigh(metres)
	r.ladder()
	s.Steps = s.steps()
	s.snaps()
	s.Timing = s.timings()
	s.Reactions, s.Together = s.reactions(), s.together()
	s.sync()
	r.note()
	s.Complete()
}

// terms are the numbers by which a review tells a hop and a step, whatever the
// house.
func terms() map[string]any {
	return map[string]any{
		"hop_rise_share": hopRise, "hop_seconds": hopSeconds, "hop_series_seconds": seriesSeconds,
		"step_length_share": stepLength, "step_seconds": stepSeconds, "slide_share": SlideShare,
		"reaction_most_seconds": reactionMost,
	}
}
