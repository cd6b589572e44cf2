package sheet

import (
	"bytes"
	"strings"
	"testing"
)

// apart is a clip of two figures, the second of which is crossed from 11 to 20.
func apart() *Sheet {
	s := &Sheet{
		Clip:    Clip{Name: "two.mov", Width: 640, Height: 360, FPS: Rate{24, 1}, Frames: 40, FirstFrame: 1, SHA256: strings.Repeat("0", 64)},
		Shots:   []Shot{{Start: 1, End: 40, Camera: Camera{Kind: "still", Zoom: 1}}},
		Curve:   Curve{Motion: make([]float64, 40), Camera: make([][4]float64, 40)},
		Beats:   []Beat{NewMove(1, 0, 1, 40, 8, 1), NewMove(1, 1, 1, 40, 8, 1), NewHold(1, 2, 1, 10, HoldFrozen), NewMove(1, 2, 21, 40, 30, 1)},
		Figures: []Figure{{Shot: 1, Start: 1, End: 40, Height: 200}, {Shot: 1, Start: 1, End: 40, Height: 180, Unknown: []Unknown{{11, 20, UnknownCrossing}}}},
	}
	for i := range s.Curve.Camera {
		s.Curve.Camera[i][3] = 1
	}
	s.Complete()
	return s
}

// TestUnknownLeavesAGap: beats of a figure leave a gap where it says so, and
// nowhere else.
func TestUnknownLeavesAGap(t *testing.T) {
	if err := apart().Check(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(s *Sheet){
		"nothing said":    func(s *Sheet) { s.Figures[1].Unknown = nil },
		"a frame short":   func(s *Sheet) { s.Figures[1].Unknown[0].End = 19 },
		"another figure":  func(s *Sheet) { s.Figures[0].Unknown, s.Figures[1].Unknown = s.Figures[1].Unknown, nil },
		"no such reason":  func(s *Sheet) { s.Figures[1].Unknown[0].Why = "asleep" },
		"beyond the shot": func(s *Sheet) { s.Figures[1].Unknown[0].End = 41 },
		"twice":           func(s *Sheet) { s.Figures[1].Unknown = append(s.Figures[1].Unknown, Unknown{20, 20, UnknownShort}) },
		"whole picture":   func(s *Sheet) { s.Beats[3].Figure, s.Beats[2].Figure, s.Beats = 0, 0, s.Beats[2:]; s.Complete() },
	} {
		s := apart()
		if spoil(s); s.Check() == nil {
			t.Errorf("%s: no complaint", name)
		}
	}
}

// TestUnknownBeforeAFigureStirs: one that rests in its place has beats before it is
// seen to stir, and a gap among them.
func TestUnknownBeforeAFigureStirs(t *testing.T) {
	s := apart()
	s.Figures[1].Start = 18
	s.Complete()
	if err := s.Check(); err != nil {
		t.Error(err)
	}
}

// TestOwnBeatsAreNotCountedTwice: the head counts the beats of the whole picture,
// and the table shows whose each is.
func TestOwnBeatsAreNotCountedTwice(t *testing.T) {
	var b bytes.Buffer
	if err := apart().WriteTable(&b, 100); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"1 beat: ", "figure  ", "Figure 2 is not known by itself on frames 11–20 (crossing)"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in:\n%s", want, b.String())
		}
	}
}
