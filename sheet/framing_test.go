package sheet

import (
	"errors"
	"slices"
	"testing"
)

// framedSheet is a clip of 640 by 360 of one figure that holds a pose twice, in
// boxes of left, top, width and height.
func framedSheet(t *testing.T, first, second [4]float64) *Sheet {
	t.Helper()
	s := acted(film, part{24, frozen}, part{12, 1}, part{24, alive})
	s.Clip.Width, s.Clip.Height = 640, 360
	for i, box := range map[int][4]float64{0: first, 2: second} {
		b := s.Beats[i]
		boxes := make([][4]float64, b.End-b.Start+1)
		for k := range boxes {
			boxes[k] = box
		}
		s.AddFraming(b, 1, boxes)
	}
	slices.SortFunc(s.Framing, func(a, b Framing) int { return a.Start - b.Start })
	return s.review(t)
}

// Rooms are shares of the picture: worked out by hand.
func TestFramingOfABox(t *testing.T) {
	c := Clip{Width: 640, Height: 360}
	for _, w := range []struct {
		box               [4]float64
		above, left, size float64
		third, safe       string
		touches           []string
	}{
		{[4]float64{256, 36, 128, 288}, 0.1, 0.4, 0.8, ThirdMiddle, SafeTitle, []string{}},
		{[4]float64{160, 18, 64, 324}, 0.05, 0.25, 0.9, ThirdLeft, SafeTitle, []string{}},
		// The margins of the safe areas are 5 % and 3.5 % (SMPTE ST 2046-1).
		{[4]float64{160, 15, 64, 300}, 15.0 / 360, 0.25, 300.0 / 360, ThirdLeft, SafeAction, []string{}},
		{[4]float64{160, 12, 64, 300}, 12.0 / 360, 0.25, 300.0 / 360, ThirdLeft, SafeNone, []string{}},
		{[4]float64{540, 180, 100, 180}, 0.5, 540.0 / 640, 0.5, ThirdRight, SafeNone, []string{EdgeBottom, EdgeRight}},
		{[4]float64{0, 0, 640, 360}, 0, 0, 1, ThirdMiddle, SafeNone, []string{EdgeTop, EdgeBottom, EdgeLeft, EdgeRight}},
	} {
		f := c.frame(w.box[0], w.box[1], w.box[2], w.box[3])
		if f.Headroom != w.above || f.LeftRoom != w.left || f.Size != w.size || f.Third != w.third || f.Safe != w.safe || !slices.Equal(f.Touches, w.touches) {
			t.Errorf("%v: %+v", w.box, f)
		}
	}
}

// What lies between black bars is framed by them.
func TestFramingBetweenBars(t *testing.T) {
	c := Clip{Width: 640, Height: 360, Bars: &Bars{Above: 40, Below: 20}} // a picture of 300 rows
	f := c.frame(256, 70, 128, 270)
	if f.Headroom != 0.1 || f.FootRoom != 0 || f.Size != 0.9 || f.Y != 70 || !slices.Equal(f.Touches, []string{EdgeBottom}) {
		t.Errorf("%+v", f)
	}
	// A soft rim of a bar is no place outside the picture.
	if f := c.frame(256, 38, 128, 304); f.Headroom != 0 || f.FootRoom != 0 || f.Size != 1 {
		t.Errorf("over both rims: %+v", f)
	}
	s := acted(film, part{5, frozen})
	s.Clip.Width, s.Clip.Height, s.Clip.Bars = 640, 360, &Bars{Above: 200, Below: 160}
	if err := s.Check(); err == nil {
		t.Error("bars that leave no picture are taken")
	}
}

// A figure that is seen on fewer than half of a hold's frames has no framing,
// and single frames that are off do not count.
func TestFramingIsTheMedianOfWhatIsSeen(t *testing.T) {
	s := acted(film, part{5, frozen})
	s.AddFraming(s.Beats[0], 1, [][4]float64{{}, {}, {}, {10, 10, 20, 20}, {10, 10, 20, 20}})
	if len(s.Framing) != 0 {
		t.Errorf("seen on 2 of 5 frames: %+v", s.Framing)
	}
	s.AddFraming(s.Beats[0], 1, [][4]float64{{10, 10, 20, 20}, {10, 10, 20, 20}, {600, 0, 30, 300}, {10, 10, 20, 20}, {}})
	if f := s.Framing[0]; f.X != 10 || f.Y != 10 || f.Width != 20 || f.Height != 20 {
		t.Errorf("%+v", f)
	}
}

func TestFramingNotes(t *testing.T) {
	good := [4]float64{250, 60, 100, 260}
	for name, c := range map[string]struct {
		first, second [4]float64
		want          []string
		start, end    int
	}{
		"good":                 {good, good, nil, 0, 0},
		"low":                  {[4]float64{250, 170, 100, 180}, [4]float64{250, 180, 100, 170}, []string{"low-framing"}, 1, 60},
		"one crouch":           {good, [4]float64{250, 180, 100, 140}, nil, 0, 0},
		"wide":                 {[4]float64{300, 200, 30, 60}, [4]float64{300, 200, 30, 60}, nil, 0, 0},
		"room on both sides":   {[4]float64{300, 144, 60, 100}, [4]float64{300, 144, 60, 100}, nil, 0, 0},
		"no room over it":      {[4]float64{250, 4, 100, 300}, good, []string{"tight-headroom"}, 1, 24},
		"close":                {[4]float64{200, 0, 200, 360}, [4]float64{200, 0, 200, 360}, nil, 0, 0},
		"cut at the right":     {good, [4]float64{560, 60, 80, 260}, []string{"edge-cut"}, 37, 60},
		"cut through":          {[4]float64{0, 60, 640, 260}, [4]float64{0, 60, 640, 260}, nil, 0, 0},
		"close against a side": {[4]float64{0, 0, 200, 360}, [4]float64{0, 0, 200, 360}, nil, 0, 0},
	} {
		s := framedSheet(t, c.first, c.second)
		var got []string
		for _, n := range s.Notes {
			if slices.Contains([]string{"low-framing", "tight-headroom", "edge-cut"}, n.Kind) {
				got = append(got, n.Kind)
				if n.Start != c.start || n.End != c.end {
					t.Errorf("%s: %d-%d", name, n.Start, n.End)
				}
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: notes %q, want %q", name, got, c.want)
		}
	}
}

func TestFramingBelongsToAHold(t *testing.T) {
	for path, spoil := range map[string]func(*Framing){
		"framing[0].beat":   func(f *Framing) { f.Beat = 2 },
		"framing[0].figure": func(f *Framing) { f.Figure = 3 },
		"framing[0]":        func(f *Framing) { f.End++ },
		"framing[0].width":  func(f *Framing) { f.Width = 0 },
	} {
		s := framedSheet(t, [4]float64{250, 60, 100, 260}, [4]float64{250, 60, 100, 260})
		spoil(&s.Framing[0])
		var field *FieldError
		if err := s.Check(); !errors.As(err, &field) || field.Path != path {
			t.Errorf("%s: %v", path, err)
		}
	}
}
