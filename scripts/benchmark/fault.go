package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
)

// A Fault is one thing that came out wrong.
type Fault struct {
	Scene   string `json:"scene"`
	Variant string `json:"variant"`
	Size    string `json:"size"`
	Measure string `json:"measure"`
	Want    string `json:"want"`
	Got     string `json:"got"`
}

func (t *trial) fault(measure, want, got string) {
	t.faults = append(t.faults, Fault{t.scene, t.variant, sizeName(t.size), measure, want, got})
}

// reportFaults lists what went wrong, clip by clip, at most limit lines of it;
// 0 lists all.
func reportFaults(w io.Writer, trials []*trial, limit int) error {
	var rows []table.Row
	var measures []string
	counts := map[string]int{}
	for _, t := range trials {
		for _, f := range t.faults {
			rows = append(rows, table.Row{f.Scene, condition(t), f.Measure, f.Want, f.Got})
			if counts[f.Measure]++; counts[f.Measure] == 1 {
				measures = append(measures, f.Measure)
			}
		}
	}
	if len(rows) == 0 {
		_, err := fmt.Fprintln(w, " FAULTS: none")
		return err
	}
	for i, m := range measures {
		measures[i] = fmt.Sprintf("%s %d", m, counts[m])
	}
	t := newTable("FAULTS, frames from 0: "+strings.Join(measures, ", "), 5, "scene", "condition", "measure", "true", "found")
	if left := len(rows) - limit; limit > 0 && left > 0 {
		rows = append(rows[:limit], table.Row{fmt.Sprintf("and %d more", left), "", "", "", "--faults 0 lists all"})
	}
	t.AppendRows(rows)
	return render(w, t)
}
