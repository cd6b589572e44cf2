package sheet

import (
	"bytes"
	"strings"
	"testing"
)

// comeAndGo is a sheet of two figures, the second of which comes in, walks up to the
// first, and leaves.
func comeAndGo() *Sheet {
	s := apart()
	s.Figures[0].Enters = &Passage{SideNone, 1, 1}
	s.Figures[0].Leaves = &Passage{SideNone, 40, 40}
	s.Figures[1].Enters = &Passage{SideLeft, 2, 6}
	s.Approaches = []Approach{{1, 1, 2, 6, 20, -1.46, []int{2}}, {1, 1, 2, 22, 40, 0.5, []int{1, 2}}}
	s.Complete()
	return s
}

func TestStaging(t *testing.T) {
	s := comeAndGo()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	var table, text bytes.Buffer
	if err := s.WriteTable(&table, 0); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{
		"figure  enters  frames  leaves  frames", "     1  there           stays", "     2  left    2–6",
		"figures  gap      frames  heights  by", "1 and 2  shrinks  6–20        1.5  2", "1 and 2  grows    22–40       0.5  both",
	} {
		if !strings.Contains(table.String(), words) {
			t.Errorf("the table has no %q:\n%s", words, table.String())
		}
	}
	if err := s.WriteJSON(&text); err != nil {
		t.Fatal(err)
	}
	again, err := Read(&text)
	if err != nil {
		t.Fatal(err)
	}
	if f := again.Figures[1]; *f.Enters != *s.Figures[1].Enters || f.Leaves != nil || len(again.Approaches) != 2 || again.Approaches[0].Change != -1.46 {
		t.Errorf("read back %+v, %+v", f, again.Approaches)
	}
}

// Nothing is said of figures that neither come nor go.
func TestNobodyComes(t *testing.T) {
	s := comeAndGo()
	s.Figures[1].Enters, s.Approaches = nil, nil
	var table bytes.Buffer
	if err := s.WriteTable(&table, 0); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(table.String(), "enters") {
		t.Errorf("the table says who enters:\n%s", table.String())
	}
}

func TestBadStaging(t *testing.T) {
	for name, spoil := range map[string]func(s *Sheet){
		"no such side":         func(s *Sheet) { s.Figures[1].Enters.Side = "back" },
		"before the shot":      func(s *Sheet) { s.Figures[1].Enters.Start = 0 },
		"after the shot":       func(s *Sheet) { s.Figures[0].Leaves.End = 41 },
		"ends before it":       func(s *Sheet) { s.Figures[1].Enters.End = 1 },
		"no such figure":       func(s *Sheet) { s.Approaches[0].Second = 3 },
		"the whole picture":    func(s *Sheet) { s.Approaches[0].First = 0 },
		"to itself":            func(s *Sheet) { s.Approaches[0].Second, s.Approaches[0].By = 1, []int{1} },
		"no such shot":         func(s *Sheet) { s.Approaches[0].Shot = 2 },
		"a gap after the shot": func(s *Sheet) { s.Approaches[1].End = 41 },
		"nobody does it":       func(s *Sheet) { s.Approaches[0].By = nil },
		"another does it":      func(s *Sheet) { s.Approaches[0].By = []int{3} },
		"nothing changes":      func(s *Sheet) { s.Approaches[0].Change = 0 },
	} {
		s := comeAndGo()
		if spoil(s); s.Check() == nil {
			t.Errorf("%s: no complaint", name)
		}
	}
}
