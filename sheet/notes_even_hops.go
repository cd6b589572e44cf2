package sheet

import (
	"fmt"

	"gonum.org/v1/gonum/stat"
)

var evenHopsRule = &Rule{
	Kind:       "even-hops",
	Measures:   "hops in a row whose rises and air times are all alike; big and little ones read better",
	Weights:    []string{WeightLook},
	Thresholds: []*Threshold{evenHops, evenRises, evenAirFrames, evenAirShare},
	Gauge:      Gauge{Less: true, Names: []string{"rise_variation"}},
	find:       (*review).evenHopNotes,
}

var (
	evenHops = &Threshold{
		Name: "hops_least", Unit: inCount, Default: 3, Min: 2, Max: 1000, Whole: true,
		Reason: "so many hops make a series that can be even", Source: practice,
	}
	evenRises = &Threshold{
		Name: "rise_variation_most", Unit: inShare, Default: 0.1, Min: 0, Max: 1,
		Reason: "coefficient of variation under which rises are alike: they are measured to a tenth", Source: accuracy,
	}
	evenAirFrames = &Threshold{
		Name: "air_spread_frames_most", Unit: inFrames, Default: 2, Min: 0, Max: 1000, Whole: true,
		Reason: "how far apart alike air times may be: each end of one is known to half a frame", Source: accuracy,
	}
	evenAirShare = &Threshold{
		Name: "air_spread_share_most", Unit: inShare, Default: 0.2, Min: 0, Max: 1,
		Reason: "and at most as a share of the mean air time", Source: practice,
	}
)

// evenHopNotes finds series of hops that are all alike.
func (r *review) evenHopNotes() []Note {
	var notes []Note
	for _, series := range r.hopSeries() {
		e := r.evenness(series)
		if len(r.Contacts) == 0 || len(series) < r.whole(evenHops) || !r.alike(e) {
			continue
		}
		first, last := r.Flights[series[0]], r.Flights[series[len(series)-1]]
		rise, air := stat.Mean(e.rises, nil), stat.Mean(e.airs, nil)
		notes = append(notes, Note{
			Start: first.Start, End: last.End, Weight: WeightLook,
			Text: fmt.Sprintf("%s%d hops are all alike, about %.0f %% of the figure's height and %.0f frames of air each: some big and some little would read better",
				r.whose(first.Figure), len(series), 100*rise, air),
			Measured: map[string]any{
				"hops": len(series), "mean_rise_share": round(rise, shareDigits), "mean_air_frames": round(air, pixelDigits),
				"rise_variation": round(e.riseVariation(), shareDigits), "air_spread_frames": e.airSpread(),
			},
		})
	}
	return notes
}

// alike reports whether hops are all alike.
func (r *review) alike(e evenness) bool {
	spread := e.airSpread()
	return e.riseVariation() <= r.at(evenRises) && spread <= r.at(evenAirFrames) && spread <= r.at(evenAirShare)*stat.Mean(e.airs, nil)
}
