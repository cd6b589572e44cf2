package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/stat"
)

const (
	// evenHops is how many hops make a series that can be even.
	evenHops = 3
	// farOff is the factor between a rise and the nearest that gravity allows from
	// which no reading of the figure's height excuses it: a child is half as tall
	// as a grown person.
	farOff = 2.0
)

// hopNotes finds hops that gravity would not give.
func (s *Sheet) hopNotes() []Note {
	var notes []Note
	for _, f := range s.Flights {
		if f.Gravity != nil && f.Gravity.Word != InKeeping && f.Figure > 0 && s.hop(f) {
			notes = append(notes, s.hopNote(f))
		}
	}
	return notes
}

func (s *Sheet) hopNote(f Flight) Note {
	g := f.Gravity
	metres := s.Settings["figure_height_m"]
	n := Note{
		Kind: "floaty-hop", Start: f.Start, End: f.End, Weight: WeightLook,
		Measured: map[string]any{
			"flight": f.ID, "air_seconds": g.AirSeconds, "rise_share": f.RiseShare,
			"gravity_rise_low_share": g.RiseLow, "gravity_rise_high_share": g.RiseHigh, "ratio": g.Ratio,
			"figure_height_m": metres, "rise_tolerance_share": riseTolerance, "fix_factor": farOff,
		},
	}
	verdict, off := Floats, f.RiseShare*farOff < g.RiseLow
	if g.Word == FallsFast {
		n.Kind, verdict, off = "heavy-drop", FallsFast, f.RiseShare > farOff*g.RiseHigh
	}
	if off {
		n.Weight = WeightFix
	}
	n.Text = fmt.Sprintf("%shop %s: up %.0f %% of the figure's height in %s of air; gravity gives a figure of %g m %.0f to %.0f %% in that time",
		s.whose(f.Figure), verdict, 100*f.RiseShare, count(f.Frames, "frame"), metres, 100*g.RiseLow, 100*g.RiseHigh)
	return n
}

// evenHopNotes finds series of hops that are all alike.
func (s *Sheet) evenHopNotes() []Note {
	var notes []Note
	for _, series := range s.hopSeries() {
		e := s.evenness(series)
		if len(series) < evenHops || !e.alike() {
			continue
		}
		first, last := s.Flights[series[0]], s.Flights[series[len(series)-1]]
		rise, air := stat.Mean(e.rises, nil), stat.Mean(e.airs, nil)
		notes = append(notes, Note{
			Kind: "even-hops", Start: first.Start, End: last.End, Weight: WeightLook,
			Text: fmt.Sprintf("%s%d hops are all alike, about %.0f %% of the figure's height and %.0f frames of air each: some big and some little would read better",
				s.whose(first.Figure), len(series), 100*rise, air),
			Measured: map[string]any{
				"hops": len(series), "mean_rise_share": round(rise, shareDigits), "mean_air_frames": round(air, pixelDigits),
				"rise_variation": round(e.riseVariation(), shareDigits), "air_spread_frames": e.airSpread(),
				"hops_least": evenHops, "rise_variation_most": evenRises, "air_spread_frames_most": evenAirFrames,
				"air_spread_share_most": evenAirShare,
			},
		})
	}
	return notes
}
