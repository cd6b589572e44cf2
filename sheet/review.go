package sheet

// Bounds of the stated height of a figure in metres: a mouse's foot to a
// giant's head. DefaultFigureHeight is about that of a grown person.
const (
	MinFigureHeight     = 0.05
	MaxFigureHeight     = 100
	DefaultFigureHeight = 1.7
)

// Review derives from what was measured what a reviewer asks of feet: steps,
// what gravity says of each flight, the ladder of hops, and notes. metres is
// how tall the figures are said to be. It wants a sheet that Complete went
// over, and is called once: notes are added to those that are there.
func (s *Sheet) Review(metres float64) {
	s.Settings["figure_height_m"] = metres
	s.weigh(metres)
	s.ladder()
	s.Steps = s.steps()
	s.noteFeet()
	s.Complete()
}
