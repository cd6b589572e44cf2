package main

// A Score is what all measures count over one trial or over many.
type Score struct {
	Trials   int     `json:"trials"`
	Holds    Counts  `json:"holds"`
	Starts   Offsets `json:"starts"`   // of matched holds
	Ends     Offsets `json:"ends"`     // of matched holds
	Alive    Share   `json:"alive"`    // matched holds told frozen or moving rightly
	Peaks    Counts  `json:"peaks"`    //
	Cuts     Counts  `json:"cuts"`     //
	Exposure Share   `json:"exposure"` // frames
	Repeats  Share   `json:"repeats"`  // clips told repeating or not rightly
	Shift    Mean    `json:"shift"`    // camera error in the middle of the picture, displayed pixels a frame
	Spread   Mean    `json:"spread"`   // camera error over the whole picture, displayed pixels a frame
	Kind     Share   `json:"kind"`     // shots
	Figures  Counts  `json:"figures"`  //
	Height   ratios  `json:"height"`   // found height of figures over true height
	// Contacts, slides, flights and impacts: a field each here, then a line in
	// add, judges and columns.
}

type ratios []float64

func (s *Score) add(o *Score) {
	s.Trials += o.Trials
	s.Holds.add(o.Holds)
	s.Starts = append(s.Starts, o.Starts...)
	s.Ends = append(s.Ends, o.Ends...)
	s.Alive.add(o.Alive)
	s.Peaks.add(o.Peaks)
	s.Cuts.add(o.Cuts)
	s.Exposure.add(o.Exposure)
	s.Repeats.add(o.Repeats)
	s.Shift.add(o.Shift)
	s.Spread.add(o.Spread)
	s.Kind.add(o.Kind)
	s.Figures.add(o.Figures)
	s.Height = append(s.Height, o.Height...)
}

// judges are all that is looked at in a trial. Each adds to the trial's score
// and names what went wrong.
var judges = []func(*trial){
	judgeHolds,
	judgePeaks,
	judgeCuts,
	judgeExposure,
	judgeRepeats,
	judgeCamera,
	judgeCameraKind,
	judgeFigures,
	// judgeContacts, judgeSlides, judgeFlights, judgeImpacts
}

// columns are those of the accuracy table. A cell says "-" where there was
// nothing to judge.
var columns = []struct {
	title string
	cell  func(*Score) string
}{
	{"clips", func(s *Score) string { return count(s.Trials) }},
	{"holds\nF1", func(s *Score) string { return share(s.Holds.F1()) }},
	{"edges\n±1", func(s *Score) string { return share(s.edges().Within(1)) }},
	{"edges\n±2", func(s *Score) string { return share(s.edges().Within(2)) }},
	{"start\nmedian", func(s *Score) string { return signed(s.Starts.Median()) }},
	{"end\nmedian", func(s *Score) string { return signed(s.Ends.Median()) }},
	{"frozen/\nmoving", func(s *Score) string { return share(s.Alive.Value()) }},
	{"peaks\nF1", func(s *Score) string { return share(s.Peaks.F1()) }},
	{"cuts\nF1", func(s *Score) string { return share(s.Cuts.F1()) }},
	{"expo-\nsure", func(s *Score) string { return share(s.Exposure.Value()) }},
	{"re-\npeats", func(s *Score) string { return share(s.Repeats.Value()) }},
	{"camera\nshift px", func(s *Score) string { return pixels(s.Shift.Value()) }},
	{"camera\nfield px", func(s *Score) string { return pixels(s.Spread.Value()) }},
	{"camera\nkind", func(s *Score) string { return share(s.Kind.Value()) }},
	{"figures\nF1", func(s *Score) string { return share(s.Figures.F1()) }},
	{"height\nratio", func(s *Score) string { return ratio(median(s.Height)) }},
	// contacts F1, slides, flights, impacts
}

func (s *Score) edges() Offsets { return append(append(Offsets{}, s.Starts...), s.Ends...) }
