package sheet

import "fmt"

var floatyRule = &Rule{
	Kind:       "floaty-hop",
	Measures:   "a hop that is in the air too long for its height, by free fall and the figure's stated height",
	Weights:    []string{WeightLook, WeightFix},
	Thresholds: []*Threshold{floatTolerance, floatFactor},
	Gauge:      Gauge{Less: true, Names: []string{"ratio"}},
	find:       func(r *review) []Note { return r.hopNotes(Floats) },
}

var dropRule = &Rule{
	Kind:       "heavy-drop",
	Measures:   "a hop that is back on the ground too soon for its height, by free fall and the figure's stated height",
	Weights:    []string{WeightLook, WeightFix},
	Thresholds: []*Threshold{dropTolerance, dropFactor},
	Gauge:      Gauge{Names: []string{"ratio"}},
	find:       func(r *review) []Note { return r.hopNotes(FallsFast) },
}

var (
	floatTolerance, dropTolerance = riseTolerance(), riseTolerance()
	floatFactor, dropFactor       = farOff(), farOff()
)

func riseTolerance() *Threshold {
	return &Threshold{
		Name: "rise_tolerance_share", Unit: inShare, Default: 0.1, Min: 0, Max: 1,
		Reason: "how far a rise may be outside what gravity allows for one frame either way: it is measured to a tenth", Source: accuracy,
	}
}

func farOff() *Threshold {
	return &Threshold{
		Name: "fix_factor", Unit: inFactor, Default: 2, Min: 1, Max: 100,
		Reason: "from this factor on it is a fix, as no reading of the figure's height excuses it: a child is half as tall as a grown person; take-off and landing may both be a frame off",
		Source: practice,
	}
}

// hopNotes finds hops that gravity would not give, those of one word.
func (r *review) hopNotes(word string) []Note {
	var notes []Note
	for _, f := range r.Flights {
		if len(r.Contacts) > 0 && f.Gravity != nil && f.Gravity.Word == word && f.Figure > 0 && r.IsHop(f) {
			notes = append(notes, r.hopNote(f))
		}
	}
	return notes
}

func (r *review) hopNote(f Flight) Note {
	g := f.Gravity.rounded()
	metres := r.Settings["figure_height_m"]
	weight := WeightLook
	if r.offByFactor(f) {
		weight = WeightFix
	}
	return Note{
		Start: f.Start, End: f.End, Weight: weight,
		Text: fmt.Sprintf("%shop %s: up %.0f %% of the figure's height in %s of air; gravity gives a figure of %g m %.0f to %.0f %% in that time",
			r.whose(f.Figure), g.Word, 100*f.RiseShare, count(f.Frames, "frame"), metres, 100*g.RiseLow, 100*g.RiseHigh),
		Measured: map[string]any{
			"flight": f.ID, "air_seconds": g.AirSeconds, "rise_share": f.RiseShare,
			"gravity_rise_low_share": g.RiseLow, "gravity_rise_high_share": g.RiseHigh, "ratio": g.Ratio,
			"figure_height_m": metres,
		},
	}
}

// offByFactor reports whether a hop is so far off gravity that nothing excuses it,
// its take-off and its landing both a frame wrong.
func (r *review) offByFactor(f Flight) bool {
	low, high := f.Gravity.widest(f.Frames)
	if f.Gravity.Word == FallsFast {
		return f.RiseShare > r.at(dropFactor)*high
	}
	return f.RiseShare*r.at(floatFactor) < low
}
