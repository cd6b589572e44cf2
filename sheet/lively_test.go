package sheet

import (
	"bytes"
	"strings"
	"testing"
)

// turning is a sheet of a clip that is lively, quiet and lively again, and whose
// second figure turns quiet.
func turning() *Sheet {
	s := apart()
	end := s.Shots[0].End
	s.Lively = []Lively{
		{1, 0, 1, 10, 0.91, LivelyWord}, {1, 0, 11, 30, 0.04, Quiet}, {1, 0, 31, end, 0.8, LivelyWord},
		{1, 2, 1, 20, 0.7, LivelyWord}, {1, 2, 25, end, 0.1, Quiet},
	}
	s.Complete()
	return s
}

func TestLively(t *testing.T) {
	s := turning()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	var table, text bytes.Buffer
	if err := s.WriteTable(&table, 0); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"   1  all     quiet   11–30               0.04", "   1  2       lively  1–20                0.70"} {
		if !strings.Contains(table.String(), words) {
			t.Errorf("the table has no %q:\n%s", words, table.String())
		}
	}
	if err := s.WriteJSON(&text); err != nil {
		t.Fatal(err)
	}
	again, err := Read(&text)
	if err != nil || len(again.Lively) != len(s.Lively) || again.Lively[1] != s.Lively[1] {
		t.Errorf("read back %+v, %v", again.Lively, err)
	}
}

func TestBadLively(t *testing.T) {
	for name, spoil := range map[string]func(s *Sheet){
		"no such shot":       func(s *Sheet) { s.Lively[0].Shot = 3 },
		"no such figure":     func(s *Sheet) { s.Lively[3].Figure = 9 },
		"before the shot":    func(s *Sheet) { s.Lively[0].Start = 0 },
		"after the shot":     func(s *Sheet) { s.Lively[4].End = 1000 },
		"over another":       func(s *Sheet) { s.Lively[1].Start = 10 },
		"another word":       func(s *Sheet) { s.Lively[1].Word = "dull" },
		"backwards":          func(s *Sheet) { s.Lively[1].Pace = -1 },
		"nothing that turns": func(s *Sheet) { s.Lively = s.Lively[:1] },
	} {
		s := turning()
		if spoil(s); s.Check() == nil {
			t.Errorf("%s: no complaint", name)
		}
	}
}
