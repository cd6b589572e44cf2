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
	Framing  Share   `json:"framing"`  // sides of held figures that are near enough

	Contacts Counts  `json:"contacts"` //
	Touches  Offsets `json:"touches"`  // first frames of matched contacts
	Lifts    Offsets `json:"lifts"`    // last frames of matched contacts
	Slides   Counts  `json:"slides"`   //
	Slip     ratios  `json:"slip"`     // error of the slip of found slides, as a share of it
	Flights  Counts  `json:"flights"`  //
	Leaves   Offsets `json:"leaves"`   // first frames of matched flights
	Lands    Offsets `json:"lands"`    // last frames of matched flights
	Rise     ratios  `json:"rise"`     // error of the rise of matched flights, as a share of it
	Impacts  Counts  `json:"impacts"`  //
	Bounce   ratios  `json:"bounce"`   // error of the restitution of matched impacts
	Bounces  Share   `json:"bounces"`  // restitutions that come near enough
	Footless Share   `json:"footless"` // clips without feet that give nothing of feet
	Plates   Plates  `json:"plates"`   // the contacts of walks over force plates by themselves
}

type ratios []float64

// Within returns the share of values of at most most.
func (r ratios) Within(most float64) float64 {
	var s Share
	for _, v := range r {
		s.count(v <= most)
	}
	return s.Value()
}

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
	s.Framing.add(o.Framing)
	s.addGround(o)
}

func (s *Score) addGround(o *Score) {
	s.Contacts.add(o.Contacts)
	s.Touches = append(s.Touches, o.Touches...)
	s.Lifts = append(s.Lifts, o.Lifts...)
	s.Slides.add(o.Slides)
	s.Slip = append(s.Slip, o.Slip...)
	s.Flights.add(o.Flights)
	s.Leaves = append(s.Leaves, o.Leaves...)
	s.Lands = append(s.Lands, o.Lands...)
	s.Rise = append(s.Rise, o.Rise...)
	s.Impacts.add(o.Impacts)
	s.Bounce = append(s.Bounce, o.Bounce...)
	s.Bounces.add(o.Bounces)
	s.Footless.add(o.Footless)
	s.Plates.add(&o.Plates)
}

// judges are all that is looked at in a trial. Each adds to the trial's score
// and names what went wrong. Acted is what only drawn figures have a truth of:
// no geometry names the beats of recorded people.
var judges = []struct {
	judge func(*trial)
	acted bool
}{
	{judgeHolds, true},
	{judgePeaks, true},
	{judgeCuts, false},
	{judgeExposure, true},
	{judgeRepeats, false},
	{judgeCamera, false},
	{judgeCameraKind, false},
	{judgeFigures, false},
	{judgeFraming, false},
	{judgeContacts, false},
	{judgeSlides, false},
	{judgeFlights, false},
	{judgeImpacts, false},
	{judgeFootless, false},
	{judgePlates, false},
}

// A column is one of a table of scores. A cell says "-" where there was nothing
// to judge.
type column struct {
	title string
	cell  func(*Score) string
}

// columns are those of the accuracy table.
var columns = []column{
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
	{"framing\n±1 %", func(s *Score) string { return share(s.Framing.Value()) }},
}

// feetColumns are those of the table of feet. Shares within ±1 and ±2 are of
// frames, those of slip and rise of a tenth, those of bounces of 0.03.
var feetColumns = []column{
	{"clips", func(s *Score) string { return count(s.Trials) }},
	{"con-\ntacts", func(s *Score) string { return count(s.Contacts.True) }},
	{"\nF1", func(s *Score) string { return share(s.Contacts.F1()) }},
	{"edges\n±1", func(s *Score) string { return share(both(s.Touches, s.Lifts).Within(1)) }},
	{"edges\n±2", func(s *Score) string { return share(both(s.Touches, s.Lifts).Within(2)) }},
	{"start\nmedian", func(s *Score) string { return signed(s.Touches.Median()) }},
	{"end\nmedian", func(s *Score) string { return signed(s.Lifts.Median()) }},
	{"slides\nmissed", func(s *Score) string { return outOf(s.Slides.missed(), s.Slides.True) }},
	{"slides\nfalse", func(s *Score) string { return outOf(s.Slides.extra(), s.Contacts.Found) }},
	{"slides\nF1", func(s *Score) string { return share(s.Slides.F1()) }},
	{"slip\noff", func(s *Score) string { return percent(median(s.Slip)) }},
	{"slip\n±10 %", func(s *Score) string { return share(s.Slip.Within(slipWithin)) }},
	{"flights\nF1", func(s *Score) string { return share(s.Flights.F1()) }},
	{"edges\n±1", func(s *Score) string { return share(both(s.Leaves, s.Lands).Within(1)) }},
	{"rise\noff", func(s *Score) string { return percent(median(s.Rise)) }},
	{"rise\n±10 %", func(s *Score) string { return share(s.Rise.Within(riseWithin)) }},
	{"impacts\nF1", func(s *Score) string { return share(s.Impacts.F1()) }},
	{"bounce\noff", func(s *Score) string { return pixels(median(s.Bounce)) }},
	{"bounce\n±0.03", func(s *Score) string { return share(s.Bounces.Value()) }},
	{"no feet,\nquiet", func(s *Score) string { return outOf(s.Footless.Right, s.Footless.Of) }},
}

func (s *Score) edges() Offsets { return both(s.Starts, s.Ends) }

func both(a, b Offsets) Offsets { return append(append(Offsets{}, a...), b...) }
