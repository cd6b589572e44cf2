package sheet

import (
	"math"
	"slices"
)

// A Framing says how a figure stands in the picture while a pose is held, which
// is where people read it. Shares are of the picture's height (up and down) or
// width (across).
type Framing struct {
	Beat   int `json:"beat"` // id of the hold
	Shot   int `json:"shot"`
	Figure int `json:"figure"`
	Start  int `json:"start"`
	End    int `json:"end"`

	// The figure's box in pixels, all that it holds and wears included: the
	// median over the hold.
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Width  float64 `json:"width"`
	Height float64 `json:"height"`

	Headroom  float64  `json:"headroom"`   // share above the box
	FootRoom  float64  `json:"foot_room"`  // share below it
	LeftRoom  float64  `json:"left_room"`  // share to its left
	RightRoom float64  `json:"right_room"` // share to its right
	Size      float64  `json:"size"`       // share of the height that the box takes
	Balance   float64  `json:"balance"`    // its middle, from -1 at the left edge to 1 at the right one
	Touches   []string `json:"touches"`    // edges that touch or cut it: top, bottom, left, right
	Third     string   `json:"third"`      // which vertical line its middle is nearest to: left, middle, right
	Safe      string   `json:"safe"`       // the smallest area that holds it: title, action, none
}

// Edges of the picture.
const (
	EdgeTop    = "top"
	EdgeBottom = "bottom"
	EdgeLeft   = "left"
	EdgeRight  = "right"
)

// Places across the picture.
const (
	ThirdLeft   = "left"
	ThirdMiddle = "middle"
	ThirdRight  = "right"
)

// The safe areas are shares of the picture's width and height around its
// middle (SMPTE ST 2046-1).
const (
	SafeTitle  = "title"
	SafeAction = "action"
	SafeNone   = "none"

	TitleShare  = 0.90
	ActionShare = 0.93
)

// edgeShare is how near an edge a box must come to touch it, as a share of the
// picture's height: a box is known to about a pixel in 360.
const edgeShare = 0.004

// Frame returns the framing of a box in pixels of the picture.
func (c Clip) frame(x, y, width, height float64) Framing {
	w := float64(c.Width)
	first, h := c.Shown()
	top, bottom := max(y-first, 0), min(y+height-first, h)
	f := Framing{
		X: x, Y: y, Width: width, Height: height,
		Headroom: top / h, FootRoom: (h - bottom) / h,
		LeftRoom: x / w, RightRoom: (w - x - width) / w,
		Size: (bottom - top) / h, Balance: (2*x+width)/w - 1,
		Touches: []string{},
	}
	for _, edge := range []struct {
		name string
		room float64 // shares of the height
	}{
		{EdgeTop, f.Headroom}, {EdgeBottom, f.FootRoom}, {EdgeLeft, x / h}, {EdgeRight, (w - x - width) / h},
	} {
		if edge.room <= edgeShare {
			f.Touches = append(f.Touches, edge.name)
		}
	}
	f.Third, f.Safe = third(f.Balance), safe(min(f.Headroom, f.FootRoom, f.LeftRoom, f.RightRoom))
	return f
}

// third names the nearest of the two third lines and the middle between them: a
// figure that stands in the middle is on no third.
func third(balance float64) string {
	const line = 1.0 / 3 // of the way from the middle to an edge
	switch {
	case balance < -line/2:
		return ThirdLeft
	case balance > line/2:
		return ThirdRight
	}
	return ThirdMiddle
}

// safe names the smallest safe area that leaves a margin, a share of the
// picture, on the narrowest side.
func safe(margin float64) string {
	switch {
	case margin >= (1-TitleShare)/2:
		return SafeTitle
	case margin >= (1-ActionShare)/2:
		return SafeAction
	}
	return SafeNone
}

// AddFraming adds how a figure stands in the picture over a hold. boxes are
// those of its frames, each left, top, width and height in pixels, with no width
// where the figure was not seen; one seen on fewer than half of them gives
// nothing.
func (s *Sheet) AddFraming(hold Beat, figure int, boxes [][4]float64) {
	var sides [4][]float64 // left, top, right, bottom: each has a median of its own
	for _, b := range boxes {
		if b[2] > 0 {
			for i, v := range [4]float64{b[0], b[1], b[0] + b[2], b[1] + b[3]} {
				sides[i] = append(sides[i], v)
			}
		}
	}
	if 2*len(sides[0]) < hold.End-hold.Start+1 || len(sides[0]) == 0 {
		return
	}
	left, top := middle(sides[0]), middle(sides[1])
	f := s.Clip.frame(left, top, middle(sides[2])-left, middle(sides[3])-top)
	f.Shot, f.Figure, f.Start, f.End = hold.Shot, figure, hold.Start, hold.End
	s.Framing = append(s.Framing, f)
}

// middle is the lower median of values, which are put in order.
func middle(values []float64) float64 {
	slices.Sort(values)
	return values[(len(values)-1)/2]
}

// completeFraming names the hold of each framing and rounds.
func (s *Sheet) completeFraming() {
	fill(&s.Framing)
	for i := range s.Framing {
		f := &s.Framing[i]
		for _, b := range s.Beats {
			if b.Kind == KindHold && b.Shot == f.Shot && b.Start == f.Start && b.End == f.End && (b.Figure == 0 || b.Figure == f.Figure) {
				f.Beat = b.ID
				break
			}
		}
		for _, v := range []*float64{&f.X, &f.Y, &f.Width, &f.Height} {
			*v = round(*v, pixelDigits)
		}
		for _, v := range []*float64{&f.Headroom, &f.FootRoom, &f.LeftRoom, &f.RightRoom, &f.Size, &f.Balance} {
			*v = round(*v, shareDigits)
		}
		fill(&f.Touches)
	}
}

// checkFraming wants every framing on a hold, and shares that can be.
func (s *Sheet) checkFraming() error {
	const slack = 0.001 // of rounding
	for i, f := range s.Framing {
		if f.Beat < 1 || f.Beat > len(s.Beats) || s.Beats[f.Beat-1].Kind != KindHold {
			return bad(at("framing", i, "beat"), "%d is no hold", f.Beat)
		}
		if f.Figure < 1 || f.Figure > len(s.Figures) {
			return bad(at("framing", i, "figure"), "%d is no figure", f.Figure)
		}
		if b := s.Beats[f.Beat-1]; f.Shot != b.Shot || f.Start != b.Start || f.End != b.End {
			return bad(at("framing", i, ""), "is not that of beat %d", f.Beat)
		}
		if f.Width <= 0 || f.Height <= 0 {
			return bad(at("framing", i, "width"), "is %g by %g pixels", f.Width, f.Height)
		}
		for _, room := range []float64{f.Headroom, f.FootRoom, f.LeftRoom, f.RightRoom} {
			if room < -slack || room > 1+slack || math.Abs(f.Balance) > 1+slack {
				return bad(at("framing", i, ""), "leaves the picture")
			}
		}
	}
	return nil
}
