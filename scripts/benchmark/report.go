package main

import (
	"io"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// newTable returns an empty table in the style of all that is printed here:
// the first few columns, words, to the left, the rest, numbers, to the right.
func newTable(title string, words int, header ...string) table.Writer {
	t := table.NewWriter()
	t.SetTitle("%s", title)
	style := table.StyleLight
	style.Title.Align = text.AlignLeft
	style.Format.Header = text.FormatDefault
	style.Options = table.OptionsNoBordersAndSeparators
	style.Options.SeparateHeader = true
	t.SetStyle(style)
	var row table.Row
	var configs []table.ColumnConfig
	for i, h := range header {
		row = append(row, h)
		if i >= words {
			configs = append(configs, table.ColumnConfig{Number: i + 1, Align: text.AlignRight, AlignHeader: text.AlignRight})
		}
	}
	t.AppendHeader(row)
	t.SetColumnConfigs(configs)
	return t
}

// render prints a table without spaces at the ends of lines.
func render(w io.Writer, t table.Writer) error {
	for line := range strings.Lines(t.Render() + "\n\n") {
		if _, err := io.WriteString(w, strings.TrimRight(line, " \n")+"\n"); err != nil {
			return err
		}
	}
	return nil
}

// standsBy says how sure the truth of feet is.
const standsBy = "recorded people without force plates stand by a rule of speed and height, known to about a frame of 24"

// reportAccuracy prints a row for each condition over all scenes, a row for
// each scene over all conditions, once of all but feet and once of feet, and up
// to limit faults, all where limit is 0.
func reportAccuracy(w io.Writer, trials []*trial, limit int) error {
	conditions := gather(trials, condition)
	scenes := gather(trials, func(t *trial) string { return t.scene })
	totals := gather(trials, func(t *trial) string { return "all " + t.set })
	for _, t := range []table.Writer{
		scoreTable("ACCURACY BY CONDITION, all scenes", "condition", columns, conditions, totals),
		scoreTable("ACCURACY BY SCENE, all conditions", "scene", columns, scenes, nil),
		scoreTable("FEET BY CONDITION, all scenes; "+standsBy, "condition", feetColumns, conditions, totals),
		scoreTable("FEET BY SCENE, all conditions", "scene", feetColumns, scenes, nil),
	} {
		if err := render(w, t); err != nil {
			return err
		}
	}
	if err := reportPlates(w, trials); err != nil {
		return err
	}
	return reportFaults(w, trials, limit)
}

// condition is the variant, with the set and the size where these are not the
// usual ones: the sets have targets of their own.
func condition(t *trial) string {
	name := t.variant
	if t.set != setDrawn {
		name = t.set + " " + name
	}
	if t.size != mainSize {
		name += " " + sizeName(t.size)
	}
	return name
}

// A row is a name with what its trials add up to.
type row struct {
	name  string
	score Score
}

// gather adds trials up by name, in the order in which names come first.
func gather(trials []*trial, name func(*trial) string) []*row {
	var rows []*row
	byName := map[string]*row{}
	for _, t := range trials {
		n := name(t)
		if byName[n] == nil {
			byName[n] = &row{name: n}
			rows = append(rows, byName[n])
		}
		byName[n].score.add(&t.score)
	}
	return rows
}

func scoreTable(title, what string, columns []column, rows, totals []*row) table.Writer {
	header := []string{what}
	for _, c := range columns {
		header = append(header, c.title)
	}
	t := newTable(title, 1, header...)
	for _, r := range rows {
		t.AppendRow(r.cells(columns))
	}
	if totals != nil {
		t.AppendSeparator()
	}
	for _, r := range totals {
		t.AppendRow(r.cells(columns))
	}
	return t
}

func (r *row) cells(columns []column) table.Row {
	cells := table.Row{r.name}
	for _, c := range columns {
		cells = append(cells, c.cell(&r.score))
	}
	return cells
}
