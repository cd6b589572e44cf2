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

// reportAccuracy prints a row for each condition over all scenes, a row for
// each scene over all conditions, and up to limit faults, all where limit is 0.
func reportAccuracy(w io.Writer, trials []*trial, limit int) error {
	conditions := gather(trials, condition)
	scenes := gather(trials, func(t *trial) string { return t.scene })
	for _, t := range []table.Writer{
		accuracyTable("ACCURACY BY CONDITION, all scenes", "condition", conditions, true),
		accuracyTable("ACCURACY BY SCENE, all conditions", "scene", scenes, false),
	} {
		if err := render(w, t); err != nil {
			return err
		}
	}
	return reportFaults(w, trials, limit)
}

// condition is the variant, with the size where that is not the usual one.
func condition(t *trial) string {
	if t.size == mainSize {
		return t.variant
	}
	return t.variant + " " + sizeName(t.size)
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

func accuracyTable(title, what string, rows []*row, total bool) table.Writer {
	header := []string{what}
	for _, c := range columns {
		header = append(header, c.title)
	}
	t := newTable(title, 1, header...)
	all := &row{name: "all"}
	for _, r := range rows {
		t.AppendRow(r.cells())
		all.score.add(&r.score)
	}
	if total {
		t.AppendSeparator()
		t.AppendRow(all.cells())
	}
	return t
}

func (r *row) cells() table.Row {
	cells := table.Row{r.name}
	for _, c := range columns {
		cells = append(cells, c.cell(&r.score))
	}
	return cells
}
