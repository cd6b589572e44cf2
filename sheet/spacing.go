package sheet

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"
)

// A Spacing is how far each drawing of a move goes from the one before it. The last
// drawing is the pose that the move lands on, where it lands on one.
type Spacing struct {
	Drawings []int     `json:"drawings"`     // first frame of each
	Travel   []float64 `json:"travel_share"` // of what moves on the way to it, the faster the heavier, figure heights a frame
	// EaseIn and EaseOut are the frames at either end that go slower than three
	// fifths of full speed; nil where the shot cuts the move off there, or it has
	// under four drawings.
	EaseIn  *float64 `json:"ease_in_frames,omitempty"`
	EaseOut *float64 `json:"ease_out_frames,omitempty"`
	// Least is the slowest drawing between both eases against full speed, 0 to 1.
	Least *float64 `json:"least_share,omitempty"`
	Words string   `json:"words,omitempty"` // given by Complete
}

// Where words for an ease begin, as shares of the move's time, and words for its
// middle: common practice, no source. Half a cosine eases for 20 % of its time at
// either end, a quarter of one for 41 % at its slow end.
const (
	easeLong   = 0.3
	easeShort  = 0.1
	slackens   = 0.5  // of full speed: slower on the way is felt
	evenLength = 0.75 // of the move's time between the eases, for it to read as even
)

// easeDigits are the decimals of an ease: it is known to a tenth of a frame at best.
const easeDigits = 2

// frames is how long the drawings stay up in all, the landing counted like the rest.
func (s *Spacing) frames() float64 {
	n := len(s.Drawings)
	return float64(s.Drawings[n-1]-s.Drawings[0]) * float64(n) / float64(n-1)
}

// travel is how far what moves goes in all, figure heights; 0 of none.
func (s *Spacing) travel() float64 {
	if s == nil || len(s.Drawings) < 2 {
		return 0
	}
	return stat.Mean(s.Travel, nil) * s.frames()
}

// words says how a move eases: "eases in long, even, stops dead".
func (s *Spacing) words() string {
	if len(s.Drawings) < 2 {
		return ""
	}
	var words []string
	middle := s.frames()
	add := func(frames *float64, none, ease string) {
		if frames == nil {
			return
		}
		middle -= *frames
		switch share := *frames / s.frames(); {
		case share == 0:
			words = append(words, none)
		case share < easeShort:
			words = append(words, ease+" short")
		case share >= easeLong:
			words = append(words, ease+" long")
		default:
			words = append(words, ease)
		}
	}
	add(s.EaseIn, "starts at once", "eases in")
	in := len(words)
	add(s.EaseOut, "stops dead", "eases out")
	if s.Least == nil {
		return strings.Join(words, ", ")
	}
	between := ""
	switch {
	case *s.Least < slackens:
		between = "slackens on the way"
	case middle >= evenLength*s.frames():
		between = "even"
	}
	if between != "" {
		words = slices.Insert(words, in, between)
	}
	return strings.Join(words, ", ")
}

// rounded returns the same with the decimals that are kept, and its words.
func (s Spacing) rounded() Spacing {
	s.Words = s.words()
	s.Travel = slices.Clone(s.Travel)
	for i, v := range s.Travel {
		s.Travel[i] = round(v, motionDigits)
	}
	s.EaseIn, s.EaseOut = rounded(s.EaseIn, easeDigits), rounded(s.EaseOut, easeDigits)
	s.Least = rounded(s.Least, shareDigits)
	return s
}

// check wants drawings in order, within the i-th beat or on the frame it lands on.
func (s *Spacing) check(i int, b Beat) error {
	if s == nil {
		return nil
	}
	path := at("beats", i, "texture.spacing")
	if len(s.Travel) != len(s.Drawings) || len(s.Drawings) == 0 {
		return bad(path+".travel_share", "has %d values for %d drawings", len(s.Travel), len(s.Drawings))
	}
	last := b.Start - 1
	for k, f := range s.Drawings {
		if f <= last || f > b.End+1 {
			return bad(fmt.Sprintf("%s.drawings[%d]", path, k), "is %d", f)
		}
		if last = f; s.Travel[k] < 0 {
			return bad(fmt.Sprintf("%s.travel_share[%d]", path, k), "is %g", s.Travel[k])
		}
	}
	for name, v := range map[string]*float64{"ease_in_frames": s.EaseIn, "ease_out_frames": s.EaseOut} {
		if v != nil && !(*v >= 0 && *v <= s.frames()) {
			return bad(path+"."+name, "is %g", *v)
		}
	}
	if s.Least != nil && !(*s.Least >= 0 && *s.Least <= 1) {
		return bad(path+".least_share", "is %g", *s.Least)
	}
	return nil
}

// SpacingWords says how a move eases; nothing of a hold.
func (b Beat) SpacingWords() string {
	if b.Texture == nil || b.Texture.Spacing == nil {
		return ""
	}
	return b.Texture.Spacing.Words
}
