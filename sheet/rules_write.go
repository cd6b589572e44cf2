package sheet

import (
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/text"

	"holdfast/sheet/internal/page"
)

// WriteRulesTable writes every rule for people, with what a house has it at. No
// line is wider than width characters, or MinWidth if that is more; 0 means
// DefaultWidth.
func WriteRulesTable(w io.Writer, house *House, width int) error {
	p := page.New(width)
	for i, rule := range rules {
		if i > 0 {
			p.WriteString("\n")
		}
		off := ""
		if !house.On(rule) {
			off = ", switched off"
		}
		p.Line("%s (%s%s): %s", rule.Kind, rule.weights(), off, rule.Measures)
		p.Table(thresholdColumns(rule, house))
	}
	_, err := w.Write(p.Bytes())
	return err
}

// weights says how heavy the notes of a rule are: "look or fix".
func (r *Rule) weights() string { return strings.Join(r.Weights, " or ") }

func thresholdColumns(rule *Rule, house *House) []page.Column {
	right := text.AlignRight
	c := []page.Column{
		{Name: "  threshold"}, {Name: "value", Align: right}, {Name: "unit", Spare: 1}, {Name: "from–to", Spare: 2},
		{Name: "why", Wraps: true},
	}
	for _, t := range rule.Thresholds {
		value := plainNumber(house.Value(t))
		why := t.Reason + " (" + t.Source + ")"
		if house.Value(t) != t.Default {
			why = "the house's own; by default " + plainNumber(t.Default) + ": " + why
		}
		addRow(c, "  "+t.Name, value, t.Unit, plainNumber(t.Min)+"–"+plainNumber(t.Max), why)
	}
	return c
}

// plainNumber writes a number without an exponent.
func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// WriteRulesJSON writes every rule, with what a house has it at.
func WriteRulesJSON(w io.Writer, house *House) error {
	type threshold struct {
		Name    string  `json:"name"`
		Unit    string  `json:"unit"`
		Value   float64 `json:"value"`
		Default float64 `json:"default"`
		Min     float64 `json:"least"`
		Max     float64 `json:"most"`
		Whole   bool    `json:"whole"`
		Reason  string  `json:"reason"`
		Source  string  `json:"source"`
	}
	type rule struct {
		Kind       string      `json:"kind"`
		Measures   string      `json:"measures"`
		Weights    []string    `json:"weights"`
		On         bool        `json:"on"`
		Thresholds []threshold `json:"thresholds"`
	}
	list := []rule{}
	for _, r := range rules {
		one := rule{r.Kind, r.Measures, r.Weights, house.On(r), []threshold{}}
		for _, t := range r.Thresholds {
			one.Thresholds = append(one.Thresholds,
				threshold{t.Name, t.Unit, house.Value(t), t.Default, t.Min, t.Max, t.Whole, t.Reason, t.Source})
		}
		list = append(list, one)
	}
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(map[string]any{"rules": list})
}

// WriteHouse writes a whole house file: every rule and every threshold, with
// comments that say what they are. ReadHouse reads it.
func WriteHouse(w io.Writer, house *House) error {
	var b strings.Builder
	comment(&b, "Rules of the house, for holdfast sheet --house. What is left out stays at its default; on = false switches a rule off.")
	for _, rule := range rules {
		fmt.Fprintf(&b, "\n[%s]\n", rule.Kind)
		comment(&b, fmt.Sprintf("%s: %s.", rule.weights(), rule.Measures))
		fmt.Fprintf(&b, "%s = %t\n", switchKey, house.On(rule))
		for _, t := range rule.Thresholds {
			b.WriteString("\n")
			comment(&b, fmt.Sprintf("%s (%s; %s to %s, by default %s; %s)",
				t.Reason, t.Unit, plainNumber(t.Min), plainNumber(t.Max), plainNumber(t.Default), t.Source))
			fmt.Fprintf(&b, "%s = %s\n", t.Name, plainNumber(house.Value(t)))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// comment writes a TOML comment, broken at spaces.
func comment(b *strings.Builder, text string) {
	for _, line := range page.Wrap(text, 78) {
		b.WriteString("# " + line + "\n")
	}
}
