package motion

import (
	"math"

	"holdfast/motion/beats"
	"holdfast/motion/camera"
	"holdfast/motion/figure"
	"holdfast/motion/timing"
	"holdfast/motion/travel"
)

// A Pop is a jump of the figures that is undone a drawing later.
type Pop struct {
	Shot       int     // index into Result.Shots
	Start, End int     // the frames that show it
	Jump       float64 // travel there or back of the part that goes farthest, figure heights
	Around     float64 // the most that any part travels on a step nearby, figure heights
	Left       float64 // how much of the change is left after it, against what it was
}

// pop finds what pops in the stretch that was taken last. What something before
// the lens hides is not told of.
func (s *shot) pop(found *figure.Found, path []camera.Similarity, maps []*travel.Map, limit float64) {
	wide := s.series.wide[len(s.series.wide)-len(maps):]
	for _, p := range figure.Pops(s.layers[:len(maps)], path, maps, found.Regions, wide, limit, s.o.Rate) {
		if !found.Hidden[p.Start] && !found.Hidden[p.End+1] {
			p.Start, p.End = p.Start+s.first, p.End+s.first
			s.pops = append(s.pops, p)
		}
	}
}

// pop adds the pops of a shot whose figures are so many pixels tall.
func (r *Result) pop(list []figure.Pop, shot int, height float64) {
	for _, p := range list {
		r.Pops = append(r.Pops, Pop{shot, p.Start, p.End, p.Jump / height, p.Around / height, p.Left})
	}
}

// texture reads the texture of a move. One of poses that replace each other has
// none.
func texture(s beats.Series, move beats.Beat, exposure []beats.Exposure, o beats.Options) timing.Move {
	way := timing.Way{Rate: o.Rate, Repeats: o.Repeats.At}
	for _, e := range exposure {
		if move.Peak < e.Start || move.Peak > e.End {
			continue
		}
		if e.Pattern == beats.Stepped {
			return timing.Move{Smoothness: math.NaN()}
		}
		way.Up = int(math.Round(e.FramesPerDrawing))
	}
	m := timing.Read(s.Mean, move.Start, move.End, way)
	m.Spacing = timing.Space(s.Pace, move.Start, move.End, way)
	return m
}
