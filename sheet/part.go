package sheet

import (
	"regexp"
	"unicode/utf8"
)

// A Part is something of a figure that was shown by hand, such as a head or a hand,
// as it was followed through one shot.
type Part struct {
	Name  string `json:"name"`
	Shot  int    `json:"shot"`
	Start int    `json:"start"` // the shot's first frame
	End   int    `json:"end"`   // and its last

	// Boxes are where the part is on each frame from Start: left, top, width and
	// height in pixels, null where it was not seen.
	Boxes []*[4]float64 `json:"boxes"`
	// Motion is its change from the frame before in figure heights, camera taken out;
	// null where it was not seen on both.
	Motion []*float64 `json:"motion"`
	Lost   []Lost     `json:"lost"`
	Beats  []PartBeat `json:"beats"` // while it was seen

	Looks    []Look        `json:"looks,omitempty"`         // of a head or eyes
	Patterns []LookPattern `json:"look_patterns,omitempty"` // given by Complete
}

// A Lost is a stretch of frames on which a part was not seen.
type Lost struct {
	Start int `json:"start"`
	End   int `json:"end"`
}

// A PartBeat is a hold or a move of one part.
type PartBeat struct {
	Kind   string   `json:"kind"`
	Start  int      `json:"start"`
	End    int      `json:"end"`
	Frames int      `json:"frames"`         // given by Complete
	Hold   string   `json:"hold,omitempty"` // of a hold: HoldFrozen or HoldMoving
	Peak   *int     `json:"peak,omitempty"` // of a move: the frame whose change is largest
	Size   *float64 `json:"size,omitempty"` // of a move: against the part's biggest, 0 to 1
}

func (b PartBeat) words() string { return Beat{Kind: b.Kind, Hold: b.Hold}.words() }

// MaxPartName is how many characters the name of a part may have.
const MaxPartName = 32

var partName = regexp.MustCompile(`^\pL[\pL\pM\pN _-]*$`)

// IsPartName reports whether a part may be called so: letters first, then letters,
// digits, spaces, dashes and underscores.
func IsPartName(name string) bool {
	return partName.MatchString(name) && utf8.RuneCountInString(name) <= MaxPartName
}

// completeParts derives lengths and lost stretches and rounds.
func (s *Sheet) completeParts() {
	for i := range s.Parts {
		p := &s.Parts[i]
		for k, b := range p.Boxes {
			if b != nil {
				p.Boxes[k] = &[4]float64{round(b[0], pixelDigits), round(b[1], pixelDigits), round(b[2], pixelDigits), round(b[3], pixelDigits)}
			}
		}
		for k, m := range p.Motion {
			p.Motion[k] = rounded(m, motionDigits)
		}
		fill(&p.Beats)
		for k := range p.Beats {
			b := &p.Beats[k]
			b.Frames, b.Size = b.End-b.Start+1, rounded(b.Size, shareDigits)
		}
		p.Lost = p.lost()
		s.completeLooks(p)
	}
}

// lost are the stretches without boxes.
func (p *Part) lost() []Lost {
	list := []Lost{}
	for i, b := range p.Boxes {
		switch n := len(list); {
		case b != nil:
		case n > 0 && list[n-1].End == p.Start+i-1:
			list[n-1].End++
		default:
			list = append(list, Lost{p.Start + i, p.Start + i})
		}
	}
	return list
}

// checkParts wants parts with a name, one value a frame of their shot, and beats in
// order.
func (s *Sheet) checkParts() error {
	for i, p := range s.Parts {
		shot, err := s.shotOf("parts", i, p.Shot)
		if err != nil {
			return err
		}
		switch n := shot.End - shot.Start + 1; {
		case !IsPartName(p.Name):
			return bad(at("parts", i, "name"), "is %q", Visible(p.Name))
		case p.Start != shot.Start || p.End != shot.End:
			return bad(at("parts", i, "start"), "and end are not those of shot %d", p.Shot)
		case len(p.Boxes) != n:
			return bad(at("parts", i, "boxes"), "has %d values for %d frames", len(p.Boxes), n)
		case len(p.Motion) != n:
			return bad(at("parts", i, "motion"), "has %d values for %d frames", len(p.Motion), n)
		}
		if err := p.check(at("parts", i, "beats")); err != nil {
			return err
		}
		if err := p.checkLooks(at("parts", i, "looks")); err != nil {
			return err
		}
	}
	return nil
}

// check wants beats within the part's shot, one after the other.
func (p *Part) check(list string) error {
	next := p.Start
	for i, b := range p.Beats {
		if err := within(list, i, b.Start, b.End, next, p.End); err != nil {
			return err
		}
		next = b.End + 1
		switch {
		case b.Kind == KindHold:
			if b.Hold != HoldFrozen && b.Hold != HoldMoving {
				return bad(at(list, i, "hold"), "is %q", Visible(b.Hold))
			}
		case b.Kind != KindMove:
			return bad(at(list, i, "kind"), "is %q", Visible(b.Kind))
		case b.Peak == nil || *b.Peak < b.Start || *b.Peak > b.End:
			return bad(at(list, i, "peak"), "is not within the move")
		case b.Size == nil || !(*b.Size >= 0 && *b.Size <= 1):
			return bad(at(list, i, "size"), "is not from 0 to 1")
		}
	}
	return nil
}
