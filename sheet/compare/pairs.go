package compare

import (
	"math"

	"holdfast/sheet"
)

// both is two sheets and how they lie against each other.
type both struct {
	*fit
	ref, pass *sheet.Sheet
	warp      timeMap
}

var states = map[fate]string{matched: Matched, missing: Missing, extra: Extra, split: Split, merged: Merged}

// beats pairs the beats in the order of the pass.
func (b both) beats() []Pair {
	list := []Pair{}
	for _, s := range b.steps {
		if s.fate != swapped {
			list = append(list, b.pair(states[s.fate], b.fit.reference.beats[s.r:s.r+s.nr], b.fit.pass.beats[s.p:s.p+s.np]))
			continue
		}
		for i := range 4 {
			r := s.r + (i+2)%4
			list = append(list, b.pair(Swapped, b.fit.reference.beats[r:r+1], b.fit.pass.beats[s.p+i:s.p+i+1]))
		}
	}
	return list
}

func (b both) pair(state string, ref, pass []beat) Pair {
	p := Pair{State: state, Reference: spanOf(ref), Pass: spanOf(pass)}
	if len(ref) > 0 {
		p.Kind = ref[0].Kind
	} else {
		p.Kind = pass[0].Kind
	}
	if len(ref) == 0 || len(pass) == 0 {
		return p
	}
	from, to := b.stretch*ref[0].from+b.offset, b.stretch*ref[len(ref)-1].to+b.offset
	p.Start, p.End = frames(pass[0].from-from), frames(pass[len(pass)-1].to-to)
	p.Longer = frames(pass[len(pass)-1].to - pass[0].from - (to - from))
	if state == Matched || state == Swapped {
		b.comparePeaks(&p, &ref[0], &pass[0])
	}
	return p
}

// comparePeaks sets where the peak of a move lies and how big it is, against the
// reference.
func (b both) comparePeaks(p *Pair, ref, pass *beat) {
	if ref.Peak == nil || pass.Peak == nil || ref.slight() || pass.slight() {
		return
	}
	early := b.stretch * float64(*ref.Peak-ref.Start)
	p.Peak = frames(float64(*pass.Peak-pass.Start) - early)
	if r, q := b.speedAt(b.ref, *ref.Peak), b.speedAt(b.pass, *pass.Peak)*b.stretch; r > 0 && q > 0 {
		p.Size = share(q / r)
	}
}

// speedAt is the motion from the frame before, the mean over a drawing on
// threes, so that a pass on twos is not twice as fast.
func (b both) speedAt(s *sheet.Sheet, frame int) float64 {
	l := b.fit.reference
	if s == b.pass {
		l = b.fit.pass
	}
	return l.curve[frame-s.Clip.FirstFrame]
}

func spanOf(beats []beat) *Span {
	if len(beats) == 0 {
		return nil
	}
	s := &Span{Start: beats[0].Start, End: beats[len(beats)-1].End}
	for _, b := range beats {
		s.IDs = append(s.IDs, b.ID)
	}
	s.Frames = s.End - s.Start + 1
	return s
}

func frames(x float64) *int {
	n := int(math.Round(x))
	return &n
}

func share(x float64) *float64 {
	x = round(x, 4)
	return &x
}
