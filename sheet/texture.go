package sheet

// A Texture is how a move is timed within.
type Texture struct {
	Snap       *int     `json:"snap_frames,omitempty"` // from the last still frame before it to its peak; nil where no hold comes before
	Settle     int      `json:"settle_frames"`         // at its end, slower than a quarter of its peak
	Smoothness *float64 `json:"smoothness,omitempty"`  // spectral arc length, below 0: -1.4 is one smooth move; nil for moves of under five drawings
	Hitches    []Hitch  `json:"hitches,omitempty"`
	Spacing    *Spacing `json:"spacing,omitempty"` // nil for poses that replace each other
}

// A Hitch is a stall of a drawing or two inside a move.
type Hitch struct {
	Start int     `json:"start"`
	End   int     `json:"end"`
	Depth float64 `json:"depth"` // how much slower than on both sides, 0 to 1
}

// A Pop is a jump that is undone a frame or two later.
type Pop struct {
	Shot   int     `json:"shot"`
	Start  int     `json:"start"` // the frames that show it
	End    int     `json:"end"`
	Jump   float64 `json:"jump_share"`   // travel there or back of the part that goes farthest, figure heights
	Around float64 `json:"around_share"` // the most that any part travels on a step nearby, figure heights
	Left   float64 `json:"left_share"`   // how much of the change is left after it, against what it was
}

// rounded returns the same with the decimals that are kept.
func (t Texture) rounded() Texture {
	t.Smoothness = rounded(t.Smoothness, shareDigits)
	hitches := append([]Hitch(nil), t.Hitches...)
	for i := range hitches {
		hitches[i].Depth = round(hitches[i].Depth, shareDigits)
	}
	t.Hitches = hitches
	if t.Spacing != nil {
		spacing := t.Spacing.rounded()
		t.Spacing = &spacing
	}
	return t
}

// snaps fills in how long each move takes from still to its peak.
func (s *Sheet) snaps() {
	for i := range s.Beats {
		b := &s.Beats[i]
		if b.Texture == nil || b.EaseIn == nil || !s.followsHold(i) {
			continue
		}
		texture, n := *b.Texture, *b.EaseIn+1
		texture.Snap = &n
		b.Texture = &texture
	}
}

// followsHold reports whether the beat before, of the same figure, is a hold that
// ends where this one begins.
func (s *Sheet) followsHold(i int) bool {
	b := s.Beats[i]
	for k := i - 1; k >= 0; k-- {
		if a := s.Beats[k]; a.Shot == b.Shot && a.Figure == b.Figure {
			return a.Kind == KindHold && a.End == b.Start-1
		}
	}
	return false
}
