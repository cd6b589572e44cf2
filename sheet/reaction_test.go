package sheet

import "testing"

// TestReactions: who sets off after whom, told once for each move and figure.
func TestReactions(t *testing.T) {
	s := apart()
	s.Figures[1].Unknown = nil
	s.Clip.FPS = Rate{24, 1}
	s.Beats = []Beat{
		NewMove(1, 0, 1, 40, 8, 1),
		NewHold(1, 1, 1, 5, HoldFrozen), NewMove(1, 1, 6, 12, 9, 1), NewHold(1, 1, 13, 40, HoldFrozen),
		NewHold(1, 2, 1, 10, HoldFrozen), NewMove(1, 2, 11, 16, 13, 1), NewHold(1, 2, 17, 20, HoldFrozen),
		NewMove(1, 2, 21, 24, 22, 1), NewHold(1, 2, 25, 40, HoldFrozen),
	}
	s.Complete()
	s.Review(1.7, nil)
	want := Reaction{Shot: 1, Figure: 2, Beat: 6, To: 1, ToBeat: 3, Start: 11, FromMove: 5, FromPeak: 2}
	if len(s.Reactions) != 1 || s.Reactions[0] != want {
		t.Fatalf("%+v, want %+v alone", s.Reactions, want)
	}
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	for name, spoil := range map[string]func(r *Reaction){
		"no such beat": func(r *Reaction) { r.ToBeat = 99 }, "a hold": func(r *Reaction) { r.Beat = 5 },
		"another delay": func(r *Reaction) { r.FromMove++ }, "another figure": func(r *Reaction) { r.Figure = 1 },
	} {
		s.Reactions[0] = want
		if spoil(&s.Reactions[0]); s.Check() == nil {
			t.Errorf("%s: no complaint", name)
		}
	}
}

// TestNoReaction: one frame answers nothing, nor does a move long after the peak, nor
// one of which it is not known when it sets off.
func TestNoReaction(t *testing.T) {
	for name, start := range map[string]int{"together": 6, "a frame later": 7, "a frame before": 5, "before": 3, "late": 9 + 19} {
		s := apart()
		s.Figures[1].Unknown = nil
		s.Beats = []Beat{
			NewHold(1, 1, 1, 5, HoldFrozen), NewMove(1, 1, 6, 12, 9, 1),
			NewHold(1, 2, 1, start-1, HoldFrozen), NewMove(1, 2, start, 40, 30, 1),
		}
		s.Complete()
		for _, r := range s.reactions() {
			if r.Figure == 2 {
				t.Errorf("%s: %+v", name, r)
			}
		}
	}
	s := apart() // figure 2 moves when it is seen again
	s.Beats[1] = NewHold(1, 1, 1, 15, HoldFrozen)
	s.Beats = append(s.Beats[:2:2], append([]Beat{NewMove(1, 1, 16, 40, 18, 1)}, s.Beats[2:]...)...)
	s.Complete()
	if list := s.reactions(); len(list) != 0 {
		t.Errorf("after frames that are not known: %+v", list)
	}
}

// TestTogether: starts within the error of the measure are one start, whichever comes
// first, and then neither answers a move before it.
func TestTogether(t *testing.T) {
	for start, want := range map[int]bool{10: false, 11: true, 12: true, 13: true, 14: false} {
		s := offAt(start)
		if got := len(s.Together) == 1 && s.Together[0].Apart == start-12; got != want || !want && len(s.Together) > 0 {
			t.Errorf("12 and %d: together %+v, want %v", start, s.Together, want)
		}
		for _, r := range s.Reactions {
			if want || r.Figure == 2 && r.ToBeat == 5 && start <= 13 {
				t.Errorf("12 and %d: reaction %+v", start, r)
			}
		}
		if err := s.Check(); err != nil {
			t.Error(err)
		}
		if len(s.Together) == 1 {
			if s.Together[0].Apart++; s.Check() == nil {
				t.Errorf("12 and %d: no complaint of a start elsewhere", start)
			}
		}
	}
}

// offAt is a sheet whose first figure moves from 6 and from 12 and whose second does
// from a frame.
func offAt(start int) *Sheet {
	s := apart()
	s.Figures[1].Unknown = nil
	s.Clip.FPS = Rate{24, 1}
	s.Beats = []Beat{
		NewMove(1, 0, 1, 40, 8, 1),
		NewHold(1, 1, 1, 5, HoldFrozen), NewMove(1, 1, 6, 7, 6, 1), NewHold(1, 1, 8, 11, HoldFrozen),
		NewMove(1, 1, 12, 16, 13, 1), NewHold(1, 1, 17, 40, HoldFrozen),
		NewHold(1, 2, 1, start-1, HoldFrozen), NewMove(1, 2, start, start+5, start+2, 1), NewHold(1, 2, start+6, 40, HoldFrozen),
	}
	s.Complete()
	s.Review(1.7, nil)
	return s
}
