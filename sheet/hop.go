package sheet

import (
	"slices"

	"gonum.org/v1/gonum/stat"
)

const (
	// hopRise, in figure heights, and hopSeconds tell a hop from the flight of a
	// running step, whose 0.05 to 0.15 s (common practice, no source) lift a body
	// under 0.02 by free fall: a hop has either.
	hopRise    = 0.04
	hopSeconds = 0.25
	// seriesSeconds is how long a figure may stand between two hops of a series.
	seriesSeconds = 2.0
)

// Places of a hop in its series.
const (
	HopBig   = "big"
	HopSmall = "small"
	HopAlike = "alike" // as are all the others
)

// IsHop reports whether a flight is more than the air under a running step.
func (s *Sheet) IsHop(f Flight) bool {
	return f.RiseShare >= hopRise || s.Clip.length(f.Frames) >= hopSeconds
}

// hopSeries returns the flights of each run of hops, by index.
func (s *Sheet) hopSeries() [][]int {
	var all [][]int
	last := map[[2]int]int{} // series of a figure's latest hop
	for i, f := range s.Flights {
		if !s.IsHop(f) {
			continue
		}
		who := [2]int{f.Shot, f.Figure}
		k, ok := last[who]
		if ok {
			before := s.Flights[all[k][len(all[k])-1]]
			ok = s.Clip.length(f.Start-before.End-1) <= seriesSeconds
		}
		if !ok {
			k = len(all)
			all, last[who] = append(all, nil), k
		}
		all[k] = append(all[k], i)
	}
	return all
}

// ladder says which hops of each series are big and which small, or that all
// are alike.
func (r *review) ladder() {
	for _, series := range r.hopSeries() {
		if len(series) < 2 {
			continue
		}
		e := r.evenness(series)
		middle := (slices.Min(e.rises) + slices.Max(e.rises)) / 2
		for k, i := range series {
			f := &r.Flights[i]
			switch {
			case r.alike(e):
				f.Ladder = HopAlike
			case e.rises[k] >= middle:
				f.Ladder = HopBig
			default:
				f.Ladder = HopSmall
			}
		}
	}
}

// An evenness is how unlike each other hops are.
type evenness struct{ rises, airs []float64 } // figure heights, frames

func (s *Sheet) evenness(series []int) evenness {
	var e evenness
	for _, i := range series {
		e.rises = append(e.rises, s.Flights[i].RiseShare)
		e.airs = append(e.airs, float64(s.Flights[i].Frames))
	}
	return e
}

func (e evenness) riseVariation() float64 { return variation(e.rises) }

func (e evenness) airSpread() float64 { return slices.Max(e.airs) - slices.Min(e.airs) }

// variation is the coefficient of variation: standard deviation over mean, 0
// where that is 0.
func variation(v []float64) float64 {
	mean, deviation := stat.MeanStdDev(v, nil)
	if mean == 0 || len(v) < 2 {
		return 0
	}
	return deviation / mean
}
