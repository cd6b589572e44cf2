package sheet

import "testing"

// spaced is a move of ten drawings with eases of so many frames; below 0 says that it
// is not known.
func spaced(in, out, least float64) *Spacing {
	s := &Spacing{Least: &least}
	for i := range 10 {
		s.Drawings, s.Travel = append(s.Drawings, 113+i), append(s.Travel, 0.0123456789)
	}
	if in >= 0 {
		s.EaseIn = &in
	}
	if out >= 0 {
		s.EaseOut = &out
	}
	return s
}

func TestSpacingWords(t *testing.T) {
	for want, s := range map[string]*Spacing{
		"eases in, eases out":                            spaced(2, 2, 0.7),
		"starts at once, even, stops dead":               spaced(0, 0, 0.9),
		"eases in long, stops dead":                      spaced(4, 0, 0.7),
		"starts at once, eases out long":                 spaced(0, 4, 0.7),
		"eases in short, even, stops dead":               spaced(0.9, 0, 0.7),
		"eases in, slackens on the way, eases out short": spaced(2, 0.5, 0.4),
		"even, stops dead":                               spaced(-1, 0, 0.8),
		"":                                               {Drawings: []int{1, 2}, Travel: []float64{1, 1}},
	} {
		if got := s.words(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestCheckSpacing(t *testing.T) {
	for path, spoil := range map[string]func(*Spacing){
		"":                                         func(*Spacing) {},
		"beats[1].texture.spacing.travel_share":    func(s *Spacing) { s.Travel = s.Travel[1:] },
		"beats[1].texture.spacing.drawings[3]":     func(s *Spacing) { s.Drawings[3] = s.Drawings[2] },
		"beats[1].texture.spacing.drawings[9]":     func(s *Spacing) { s.Drawings[9] = 140 },
		"beats[1].texture.spacing.travel_share[2]": func(s *Spacing) { s.Travel[2] = -1 },
		"beats[1].texture.spacing.ease_in_frames":  func(s *Spacing) { x := 11.0; s.EaseIn = &x },
		"beats[1].texture.spacing.least_share":     func(s *Spacing) { x := 1.5; s.Least = &x },
	} {
		s := sampleSheet()
		spacing := spaced(2, 2, 0.7)
		s.Beats[1].Texture = &Texture{Spacing: spacing}
		spoil(spacing)
		s.Complete()
		err := s.Check()
		if field, _ := err.(*FieldError); path == "" && err != nil || path != "" && (field == nil || field.Path != path) {
			t.Errorf("%q: %v", path, err)
		}
	}
}
