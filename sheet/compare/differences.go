package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"holdfast/sheet"
)

// Kinds of differences.
const (
	HoldMissing  = "hold-missing"
	HoldExtra    = "hold-extra"
	HoldShorter  = "hold-shorter"
	HoldLonger   = "hold-longer"
	HoldsSwapped = "holds-swapped"
	MoveMissing  = "move-missing"
	MoveExtra    = "move-extra"
	MoveFaster   = "move-faster"
	MoveSlower   = "move-slower"
	HopMissing   = "hop-missing"
	HopExtra     = "hop-extra"
	HopLower     = "hop-lower"
	HopHigher    = "hop-higher"
	CutMissing   = "cut-missing"
	CutExtra     = "cut-extra"
	SlideExtra   = "slide-extra"
)

// A Difference is one thing that the pass does otherwise.
type Difference struct {
	ID        int    `json:"id"` // from 1, in the order of the pass
	Kind      string `json:"kind"`
	Weight    string `json:"weight"` // fix for what is missing and seen, and for new slides; else look
	At        int    `json:"at"`     // frame of the pass to look at
	Reference *Span  `json:"reference,omitempty"`
	Pass      *Span  `json:"pass,omitempty"`
	Text      string `json:"text"`
	// Frames is by how many frames of the pass it is longer or shorter, Ratio how
	// many times as big; 0 where neither is the point.
	Frames int     `json:"frames,omitempty"`
	Ratio  float64 `json:"ratio,omitempty"`
}

const (
	// slackFrames, at 24 a second, is by how much a length may differ and be the
	// same: each end is measured within one frame.
	slackFrames = 2.0
	// moveSlack is the share of a move's length that counts as the same, up to
	// mostMoveSlack frames at 24 a second: where a move begins and ends depends
	// on how big it is in the picture.
	moveSlack     = 0.25
	mostMoveSlack = 4.0
	// riseSlack is how many times as high a hop must be to be another height:
	// either is measured within a tenth.
	riseSlack = 1.3
)

// differences lists what is worth saying, in the order of the pass.
func (b both) differences(c *Comparison) []Difference {
	list := []Difference{}
	for i, p := range c.Beats {
		for _, d := range b.ofBeat(c.Beats, i, p) {
			if !b.doubtful(&d) {
				list = append(list, d)
			}
		}
	}
	for _, p := range c.Flights {
		list = append(list, b.ofHop(p)...)
	}
	for _, p := range c.Cuts {
		list = append(list, b.ofCut(p)...)
	}
	for _, p := range c.Contacts {
		list = append(list, b.ofContact(p)...)
	}
	slices.SortStableFunc(list, func(x, y Difference) int { return cmp.Compare(x.At, y.At) })
	for i := range list {
		list[i].ID = i + 1
	}
	return list
}

func (b both) ofBeat(all []Pair, i int, p Pair) []Difference {
	switch p.State {
	case Missing:
		if b.faint(p, p.Kind, p.Reference.Frames, b.ref) {
			return nil
		}
		return b.lostBeat(p.Kind, p.Reference)
	case Extra:
		if b.faint(p, p.Kind, p.Pass.Frames, b.pass) {
			return nil
		}
		return b.addedBeat(p.Kind, p.Pass)
	case Merged:
		return b.inside(p, p.Reference, b.ref, b.lostBeat)
	case Split:
		return b.inside(p, p.Pass, b.pass, b.addedBeat)
	case Swapped:
		// Of the four beats that changed places the first and the last pair say it.
		if i > 0 && all[i-1].State == Swapped || p.Kind != sheet.KindMove {
			return nil
		}
		return b.swappedHolds(all[i : i+4])
	}
	return b.lengthened(p)
}

// inside returns what tell says of the beats inside a joined one that are of
// the other kind.
func (b both) inside(p Pair, span *Span, s *sheet.Sheet, tell func(kind string, span *Span) []Difference) (list []Difference) {
	for _, id := range span.IDs {
		beat := s.Beats[id-1]
		if beat.Kind != p.Kind && !b.faint(p, beat.Kind, beat.Frames, s) {
			list = append(list, tell(beat.Kind, &Span{IDs: []int{id}, Start: beat.Start, End: beat.End, Frames: beat.Frames})...)
		}
	}
	return list
}

// shortestHold, at 24 frames a second, is the least that counts as a hold.
const shortestHold = 4.0

// faint reports whether a hold is so short that the other clip may show it as
// part of a move, having less than the shortest hold's frames left of it: each of
// its ends falls on the next drawing.
func (b both) faint(p Pair, kind string, frames int, s *sheet.Sheet) bool {
	scale := 1.0
	if s == b.ref {
		scale = b.stretch
	}
	return kind == sheet.KindHold && float64(frames)*scale < shortestHold*b.frame+b.drawing(p)
}

func (b both) lostBeat(kind string, r *Span) []Difference {
	d := Difference{Kind: HoldMissing, Weight: sheet.WeightFix, Reference: r, At: b.passFrame(r.Start)}
	d.Text = fmt.Sprintf("the hold of %s at %s of the reference is missing", frameCount(r.Frames), spanWords(r))
	if kind == sheet.KindMove {
		d.Kind = MoveMissing
		d.Text = fmt.Sprintf("the move at %s of the reference is missing", spanWords(r))
		if slight(b.ref.Beats[r.IDs[0]-1]) {
			d.Weight, d.Text = sheet.WeightLook, fmt.Sprintf("the slight move at %s of the reference is missing", spanWords(r))
		}
	}
	return []Difference{d}
}

func (b both) addedBeat(kind string, p *Span) []Difference {
	d := Difference{Kind: HoldExtra, Weight: sheet.WeightLook, Pass: p, At: p.Start}
	d.Text = fmt.Sprintf("a hold of %s that the reference does not have", frameCount(p.Frames))
	if kind == sheet.KindMove {
		d.Kind, d.Text = MoveExtra, "a move that the reference does not have"
		if slight(b.pass.Beats[p.IDs[0]-1]) {
			d.Text = "a slight move that the reference does not have"
		}
	}
	return []Difference{d}
}

// swappedHolds tells of two holds that have changed places: a move, a hold, a
// move and a hold, in the order of the pass.
func (b both) swappedHolds(p []Pair) []Difference {
	late, early := p[1], p[3]
	return []Difference{{
		Kind: HoldsSwapped, Weight: sheet.WeightLook, At: late.Pass.Start, Reference: early.Reference, Pass: early.Pass,
		Text: fmt.Sprintf("the holds at %s and %s of the reference come the other way round, at %s and %s",
			spanWords(early.Reference), spanWords(late.Reference), spanWords(early.Pass), spanWords(late.Pass)),
	}}
}

// lengthened tells of a beat that is longer or shorter. One that its clip cuts
// off has no known length.
func (b both) lengthened(p Pair) []Difference {
	if b.cut(p) {
		return nil
	}
	length := b.stretch * float64(p.Reference.Frames)
	// A frame of the reference is more than one of a slower pass.
	slack := slackFrames*b.frame*math.Max(1, b.stretch/natural(b.fit.reference, b.fit.pass)) + b.drawing(p) - 1
	if p.Kind == sheet.KindMove {
		slack = math.Max(slack, math.Min(moveSlack*length, mostMoveSlack*b.frame))
	}
	change := float64(p.Pass.Frames) - length
	if math.Abs(change) <= slack {
		return nil
	}
	n := int(math.Round(math.Abs(change)))
	d := Difference{Kind: HoldLonger, Weight: sheet.WeightLook, At: p.Pass.Start, Reference: p.Reference, Pass: p.Pass, Frames: *p.Longer}
	word := "longer"
	if change < 0 {
		d.Kind, word = HoldShorter, "shorter"
	}
	if p.Kind == sheet.KindMove {
		d.Kind = map[string]string{HoldLonger: MoveSlower, HoldShorter: MoveFaster}[d.Kind]
		word = map[string]string{"longer": "slower", "shorter": "faster"}[word]
		d.Text = fmt.Sprintf("the move is %s: it takes %s, where %.0f would be the reference's", word, frameCount(p.Pass.Frames), length)
	} else {
		d.Text = fmt.Sprintf("the hold is %s %s: %d, where %.0f would be the reference's", frameCount(n), word, p.Pass.Frames, length)
	}
	return []Difference{d}
}

// cut reports whether either clip cuts a beat of the pair off.
func (b both) cut(p Pair) bool {
	return p.Reference.Start == b.ref.Clip.FirstFrame || p.Reference.End == b.ref.Clip.Last() ||
		p.Pass.Start == b.pass.Clip.FirstFrame || p.Pass.End == b.pass.Clip.Last()
}

// drawing is how many frames of the pass the drawings about a pair stay up: ends
// can only fall on a new one.
func (b both) drawing(p Pair) float64 {
	most := 1.0
	for _, side := range []struct {
		s     *sheet.Sheet
		span  *Span
		scale float64
	}{{b.ref, p.Reference, b.stretch}, {b.pass, p.Pass, 1}} {
		if side.span == nil {
			continue
		}
		for _, e := range side.s.Exposure {
			if e.Start <= side.span.End+1 && e.End >= side.span.Start-1 {
				most = math.Max(most, e.FramesPerDrawing*side.scale)
			}
		}
	}
	return math.Min(most, longestDrawing*b.frame)
}

// longestDrawing, at 24 frames a second, is the longest that counts as drawing on fours; what stays
// up for longer is a hold.
const longestDrawing = 4.0

func (b both) ofHop(p Pair) []Difference {
	d := Difference{Weight: sheet.WeightLook, Reference: p.Reference, Pass: p.Pass}
	switch {
	case p.State == Missing:
		d.Kind, d.Weight, d.At = HopMissing, sheet.WeightFix, b.passFrame(p.Reference.Start)
		d.Text = fmt.Sprintf("the hop at %s of the reference is missing", spanWords(p.Reference))
	case p.State == Extra:
		d.Kind, d.At, d.Text = HopExtra, p.Pass.Start, "a hop that the reference does not have"
	case p.Size != nil && *p.Size > riseSlack:
		d.Kind, d.At, d.Ratio = HopHigher, p.Pass.Start, *p.Size
		d.Text = fmt.Sprintf("the hop is %s", ratioWords(*p.Size))
	case p.Size != nil && *p.Size < 1/riseSlack:
		d.Kind, d.At, d.Ratio = HopLower, p.Pass.Start, *p.Size
		d.Text = fmt.Sprintf("the hop is %s", ratioWords(*p.Size))
	default:
		return nil
	}
	return []Difference{d}
}

func (b both) ofCut(p Pair) []Difference {
	switch p.State {
	case Missing:
		return []Difference{{Kind: CutMissing, Weight: sheet.WeightFix, At: b.passFrame(p.Reference.Start), Reference: p.Reference,
			Text: fmt.Sprintf("the cut at %d of the reference is missing", p.Reference.Start)}}
	case Extra:
		return []Difference{{Kind: CutExtra, Weight: sheet.WeightLook, At: p.Pass.Start, Pass: p.Pass,
			Text: "a cut that the reference does not have"}}
	}
	return nil
}

// slideMore is the share of a figure's height by which a foot must slip more
// than in the reference, beside being called a slide: slips are measured within
// a hundredth.
const slideMore = 0.02

// ofContact tells of a foot that slides in the pass where it stands in the
// reference. A foot that one sheet misses is no difference worth saying.
func (b both) ofContact(p Pair) []Difference {
	if p.Pass == nil || p.Reference == nil || p.Kind != sheet.StateSlide {
		return nil
	}
	before, now := b.ref.Contacts[p.Reference.IDs[0]-1], b.pass.Contacts[p.Pass.IDs[0]-1]
	if before.State == sheet.StateSlide || math.Abs(now.SlipShare)-math.Abs(before.SlipShare) < slideMore {
		return nil
	}
	start, end := b.pass.Contacts[p.Pass.IDs[0]-1].Slide()
	span := &Span{IDs: p.Pass.IDs, Start: start, End: end, Frames: end - start + 1}
	return []Difference{{Kind: SlideExtra, Weight: sheet.WeightFix, At: start, Reference: p.Reference, Pass: span,
		Text: "a foot slides that does not slide in the reference"}}
}

// passFrame is the frame of the pass where one of the reference is, or would be.
func (b both) passFrame(ref int) int {
	n := int(math.Round(b.expected(ref)))
	return b.pass.Clip.FirstFrame + min(max(n, 0), b.pass.Clip.Frames-1)
}
