package capture

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
)

// plateDoubt is how far a force plate's threshold of 20 N may lie from the
// first and the last touch, with one sample of the cameras.
const plateDoubt = 0.015 // seconds

// Plates are times of feet on the ground by force plates, by recording.
type Plates map[string][]Stand

// ReadPlates reads a table with the columns recording, foot (L or R), on_s,
// off_s (seconds from the first frame), on_known and off_known (0 where the
// recording begins or ends in between).
func ReadPlates(r io.Reader) (Plates, error) {
	rows, err := csv.NewReader(r).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("plates: %w", err)
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("plates: %w", io.ErrUnexpectedEOF)
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	for _, name := range []string{"recording", "foot", "on_s", "off_s", "on_known", "off_known"} {
		if _, ok := column[name]; !ok {
			return nil, fmt.Errorf("plates: no column %s", name)
		}
	}
	list := Plates{}
	for i, row := range rows[1:] {
		cell := func(name string) string { return row[column[name]] }
		s, err := plateStand(cell)
		if err != nil {
			return nil, fmt.Errorf("plates: row %d: %w", i+1, err)
		}
		list[cell("recording")] = append(list[cell("recording")], s)
	}
	return list, nil
}

func plateStand(cell func(string) string) (s Stand, err error) {
	switch cell("foot") {
	case "L":
		s.Side = Left
	case "R":
		s.Side = Right
	default:
		return s, fmt.Errorf("foot %q", cell("foot"))
	}
	if s.From, err = number(cell("on_s")); err != nil {
		return s, err
	}
	if s.To, err = number(cell("off_s")); err != nil {
		return s, err
	}
	if s.From < 0 || s.To < s.From {
		return s, fmt.Errorf("from %g to %g seconds", s.From, s.To)
	}
	for k, name := range []string{"on_known", "off_known"} {
		if s.Whole[k], err = strconv.ParseBool(cell(name)); err != nil {
			return s, err
		}
	}
	s.Doubt, s.Plate = plateDoubt, true
	return s, nil
}

// byPlates takes the stands that force plates saw, and by the rule those of
// before and after, when a foot stood beside the plates.
func (r *Recording) byPlates(plates []Stand) {
	list := slices.Clone(plates)
	if len(plates) > 0 {
		for side := range 2 {
			list = append(list, r.besidePlates(side, plates)...)
		}
	}
	r.setStands(list)
	r.Rule = "force plates, 20 N"
}

// besidePlates returns the stands of one foot that the rule finds and no plate
// saw.
func (r *Recording) besidePlates(side int, plates []Stand) []Stand {
	return slices.DeleteFunc(r.standsByRule(side), func(s Stand) bool {
		return slices.ContainsFunc(plates, func(p Stand) bool {
			return p.Side == side && p.From <= s.To && s.From <= p.To
		})
	})
}
