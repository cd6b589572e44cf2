package sheet

import "math"

// A Timing is the texture of one figure's beats over a shot. Variations are
// coefficients of variation, standard deviation over mean; nPVI is the
// normalised pairwise variability index, 0 for equal lengths. Neither is given
// for fewer than timingLeast lengths. Beats that the shot cuts off have no
// length of their own and do not count.
type Timing struct {
	Shot   int `json:"shot"`
	Figure int `json:"figure"`

	BeatVariation     *float64 `json:"beat_variation,omitempty"` // of the lengths of beats
	BeatNPVI          *float64 `json:"beat_npvi,omitempty"`
	IntervalVariation *float64 `json:"interval_variation,omitempty"` // of the times from one move, or pose that pops, to the next
	IntervalNPVI      *float64 `json:"interval_npvi,omitempty"`
	SizeVariation     *float64 `json:"size_variation,omitempty"` // of the sizes of moves

	WithoutHold  *Stretch `json:"longest_without_hold,omitempty"`
	ShortestHold *Stretch `json:"shortest_hold,omitempty"`
	Frozen       *Stretch `json:"longest_frozen,omitempty"`
}

// A Stretch is a run of frames.
type Stretch struct {
	Start  int `json:"start"`
	End    int `json:"end"`
	Frames int `json:"frames"`
}

// timingLeast is how many lengths have an evenness to speak of.
const timingLeast = 3

// A track is the beats of one figure in one shot, in order.
type track struct {
	shot, figure int
	beats        []Beat
	first, last  int // frames of the shot
}

// tracks returns the beats figure by figure and shot by shot, in the order they
// first come.
func (s *Sheet) tracks() []track {
	var all []track
	place := map[[2]int]int{}
	for _, b := range s.Beats {
		key := [2]int{b.Shot, b.Figure}
		k, ok := place[key]
		if !ok {
			k = len(all)
			place[key] = k
			shot := s.Shots[b.Shot-1]
			all = append(all, track{shot: b.Shot, figure: b.Figure, first: shot.Start, last: shot.End})
		}
		all[k].beats = append(all[k].beats, b)
	}
	return all
}

// whole reports whether both ends of a beat lie within its shot.
func (t track) whole(b Beat) bool { return b.Start > t.first && b.End < t.last }

// accents are the frames on which something new sets in: a move, or a pose that
// takes the place of another at once. The shot's first frame is none.
func (t track) accents() []int {
	var list []int
	for i, b := range t.beats {
		if b.Start > t.first && (b.Kind == KindMove || i > 0 && t.beats[i-1].Kind == KindHold) {
			list = append(list, b.Start)
		}
	}
	return list
}

// intervals are the frames from accent to accent.
func (t track) intervals() []float64 {
	var list []float64
	accents := t.accents()
	for i := 1; i < len(accents); i++ {
		list = append(list, float64(accents[i]-accents[i-1]))
	}
	return list
}

// lengths are those of the whole beats.
func (t track) lengths() []float64 {
	var list []float64
	for _, b := range t.beats {
		if t.whole(b) {
			list = append(list, float64(b.Frames))
		}
	}
	return list
}

// moves are the whole ones that have a size.
func (t track) moves() []Beat {
	var list []Beat
	for _, b := range t.beats {
		if b.Kind == KindMove && b.Size != nil && t.whole(b) {
			list = append(list, b)
		}
	}
	return list
}

func (t track) sizes() []float64 {
	var list []float64
	for _, b := range t.moves() {
		list = append(list, *b.Size)
	}
	return list
}

// timings derives the texture of each figure's beats, for those that move at all.
func (s *Sheet) timings() []Timing {
	list := []Timing{}
	for _, t := range s.tracks() {
		if len(t.beats) > 1 || t.beats[0].Kind == KindMove {
			list = append(list, t.timing())
		}
	}
	return list
}

func (t track) timing() Timing {
	out := Timing{Shot: t.shot, Figure: t.figure}
	out.BeatVariation, out.BeatNPVI = evennessOf(t.lengths())
	out.IntervalVariation, out.IntervalNPVI = evennessOf(t.intervals())
	out.SizeVariation, _ = evennessOf(t.sizes())
	var moving *Stretch // the moves up to here since the last hold
	for _, b := range t.beats {
		if b.Kind == KindMove {
			moving = moving.longer(b)
			out.WithoutHold = longest(out.WithoutHold, moving)
			continue
		}
		moving = nil
		if t.whole(b) && (out.ShortestHold == nil || b.Frames < out.ShortestHold.Frames) {
			out.ShortestHold = new(Stretch).longer(b)
		}
		if b.Hold == HoldFrozen {
			out.Frozen = longest(out.Frozen, new(Stretch).longer(b))
		}
	}
	return out
}

// longer is s with a beat after it; nil and the empty stretch begin with it.
func (s *Stretch) longer(b Beat) *Stretch {
	if s == nil || s.Frames == 0 {
		return &Stretch{b.Start, b.End, b.Frames}
	}
	return &Stretch{s.Start, b.End, b.End - s.Start + 1}
}

// longest is the longer of two stretches, the first where they are alike.
func longest(a, b *Stretch) *Stretch {
	if a == nil || b.Frames > a.Frames {
		return b
	}
	return a
}

// evennessOf returns coefficient of variation and nPVI of some lengths, nil where
// they are too few.
func evennessOf(v []float64) (variationOf, npvi *float64) {
	if len(v) < timingLeast {
		return nil, nil
	}
	a, b := round(variation(v), shareDigits), round(pairwiseVariability(v), pixelDigits)
	return &a, &b
}

// pairwiseVariability is the nPVI of successive lengths: 100 times the mean of
// the differences of neighbours, each against the mean of the two. E. Grabe and
// E. L. Low, "Durational variability in speech and the rhythm class hypothesis",
// 2002. It is 0 for fewer than two.
func pairwiseVariability(v []float64) float64 {
	if len(v) < 2 {
		return 0
	}
	sum := 0.0
	for i := 1; i < len(v); i++ {
		if mean := (v[i] + v[i-1]) / 2; mean != 0 {
			sum += math.Abs(v[i]-v[i-1]) / mean
		}
	}
	return 100 * sum / float64(len(v)-1)
}
