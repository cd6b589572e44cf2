package sheet

import (
	"math"
	"slices"
)

// A Meeting is how blows in the sound lie to what lands in the picture, where so many
// of both coincide at one offset and no other that it is no chance.
type Meeting struct {
	Offset float64 `json:"offset_s"` // how much later than the picture the sound is
	Landed int     `json:"landed"`   // impacts and landings in the picture
	Met    int     `json:"met"`      // those that a blow meets
}

const (
	// meetReach is how far off a blow may be and belong to what lands, in seconds:
	// over twice what ITU-R BT.1359 finds acceptable.
	meetReach = 0.5
	// meetFrames and meetSeconds together are how far off the common offset one may be:
	// half a frame on the side of the picture, and the step at which sound is looked at.
	meetFrames, meetSeconds = 0.5, 0.01
	// meetLeast is how many must meet, and meetShare of all that lands and of all
	// blows meanwhile: fewer meet by chance.
	meetLeast = 3
	meetShare = 0.7
	// meetRival is the share of the meetings that another offset may have: a drum
	// that beats evenly fits at several.
	meetRival = 0.6
)

// meeting finds the offset of the sound against what lands; nil where none is clear.
func (s *Sheet) meeting() *Meeting {
	p := partners{s.landings(), s.blows(), meetFrames/s.Clip.FPS.Float() + meetSeconds}
	offsets := p.offsets()
	pairs := p.near(offsets)
	most := 0
	for i := range offsets {
		if pairs[i] > pairs[most] {
			most = i
		}
	}
	if len(offsets) == 0 {
		return nil
	}
	best := offsets[most]
	met := p.met(best)
	if len(met) < meetLeast || float64(len(met)) < meetShare*float64(max(len(p.landed), p.meanwhile(best))) {
		return nil
	}
	for i, d := range offsets {
		if math.Abs(d-best) > 2*p.slack && float64(pairs[i]) > meetRival*float64(len(met)) {
			return nil
		}
	}
	return &Meeting{Offset: middle(met), Landed: len(p.landed), Met: len(met)}
}

// partners are what lands and what is heard, at times in seconds and in order.
type partners struct {
	landed, blows []float64
	slack         float64 // how far from the common offset a pair may be
}

// offsets are those of all pairs that may belong together, in order.
func (p partners) offsets() []float64 {
	var list []float64
	for _, l := range p.landed {
		first, _ := slices.BinarySearch(p.blows, l-meetReach)
		for _, b := range p.blows[first:] {
			if b-l > meetReach {
				break
			}
			list = append(list, b-l)
		}
	}
	slices.Sort(list)
	return list
}

// near counts, for each of some offsets in order, those within the slack of it.
func (p partners) near(offsets []float64) []int {
	counts := make([]int, len(offsets))
	first, end := 0, 0
	for i, d := range offsets {
		for offsets[first] < d-p.slack {
			first++
		}
		for end < len(offsets) && offsets[end] <= d+p.slack {
			end++
		}
		counts[i] = end - first
	}
	return counts
}

// met returns the offset of each landing that has a blow near an offset.
func (p partners) met(offset float64) []float64 {
	var list []float64
	for _, l := range p.landed {
		i, _ := slices.BinarySearch(p.blows, l+offset)
		best := math.Inf(1)
		for _, b := range p.blows[max(0, i-1):min(len(p.blows), i+1)] {
			if d := b - l; math.Abs(d-offset) < math.Abs(best-offset) {
				best = d
			}
		}
		if math.Abs(best-offset) <= p.slack {
			list = append(list, best)
		}
	}
	return list
}

// meanwhile counts the blows between the first landing and the last, at an offset.
func (p partners) meanwhile(offset float64) int {
	n := 0
	for _, b := range p.blows {
		if t := b - offset; len(p.landed) > 0 && t >= p.landed[0]-p.slack && t <= p.landed[len(p.landed)-1]+p.slack {
			n++
		}
	}
	return n
}

// landings are the times at which something visibly lands, in seconds from the first
// frame measured: impacts of balls, ends of hops.
func (s *Sheet) landings() []float64 {
	fps := s.Clip.FPS.Float()
	var list []float64
	for _, p := range s.Impacts {
		list = append(list, (p.Frame-float64(s.Clip.FirstFrame))/fps)
	}
	for _, f := range s.Flights {
		if s.IsHop(f) {
			// Contact comes back between the last frame in the air and the next.
			list = append(list, (float64(f.End-s.Clip.FirstFrame)+0.5)/fps)
		}
	}
	slices.Sort(list)
	return list
}

// blows are the times of the accents that are no speech.
func (s *Sheet) blows() []float64 {
	var list []float64
	for _, a := range s.Sound.Accents {
		if !a.Spoken {
			list = append(list, a.Seconds)
		}
	}
	return list
}
