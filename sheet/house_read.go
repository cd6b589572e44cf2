package sheet

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// maxHouse bounds a house file in bytes: one that sets everything, with all its
// comments, has a tenth of it.
const maxHouse = 256 << 10

// A HouseError says what a house file may not hold, and where.
type HouseError struct {
	Line   int // from 1; 0 where it is the whole file
	Reason string
	hint   string
}

func (e *HouseError) Error() string {
	if e.Line == 0 {
		return e.Reason
	}
	return fmt.Sprintf("line %d: %s", e.Line, e.Reason)
}

// Hint says what to do about it.
func (e *HouseError) Hint() string { return e.hint }

// ReadHouse reads a house file: TOML with a table for each rule that differs from
// the defaults, in it "on = false" or thresholds by their names. What it does
// not know, values of the wrong type and values out of range are refused; the
// error is then a *HouseError about the first of them.
func ReadHouse(r io.Reader) (*House, error) {
	text, err := io.ReadAll(io.LimitReader(r, maxHouse+1))
	if err != nil {
		return nil, err
	}
	if len(text) > maxHouse {
		return nil, &HouseError{0, fmt.Sprintf("is larger than %d kB", maxHouse>>10), houseHint}
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff")) // as editors on Windows begin a file
	var tables map[string]any
	if err := toml.Unmarshal(text, &tables); err != nil {
		return nil, tomlError(err)
	}
	reader := houseReader{House{map[*Threshold]float64{}, map[*Rule]bool{}}, linesOf(text), nil}
	for kind, table := range tables {
		reader.table(kind, table)
	}
	if len(reader.wrong) > 0 {
		return nil, slices.MinFunc(reader.wrong, func(a, b *HouseError) int {
			return cmp.Or(a.Line-b.Line, strings.Compare(a.Reason, b.Reason))
		})
	}
	return &reader.house, nil
}

const houseHint = "holdfast rules --as toml prints a whole house file to begin from"

// tomlError puts a complaint about the file's form into a HouseError.
func tomlError(err error) error {
	var where *toml.DecodeError
	if !errors.As(err, &where) {
		return &HouseError{0, Visible(err.Error()), houseHint}
	}
	line, _ := where.Position()
	return &HouseError{line, "this is no TOML: " + Visible(strings.TrimPrefix(where.Error(), "toml: ")), houseHint}
}

// A houseReader makes a house of the tables of a file.
type houseReader struct {
	house House
	lines map[tomlKey]int
	wrong []*HouseError
}

func (r *houseReader) refuse(line int, hint, reason string, args ...any) {
	r.wrong = append(r.wrong, &HouseError{line, fmt.Sprintf(reason, args...), hint})
}

// table takes what a file says of one rule.
func (r *houseReader) table(kind string, value any) {
	line := r.lines[tomlKey{kind, ""}]
	i := slices.IndexFunc(rules, func(rule *Rule) bool { return rule.Kind == kind })
	if i < 0 {
		r.refuse(line, "the rules are "+ruleNames(), "there is no rule %q", Visible(kind))
		return
	}
	table, ok := value.(map[string]any)
	if !ok {
		r.refuse(line, fmt.Sprintf("write [%s] on a line of its own, and its thresholds below", kind), "%s is %s, no table", kind, typeWords(value))
		return
	}
	for key, v := range table {
		r.key(rules[i], key, v)
	}
}

// key takes the switch of a rule or one of its thresholds.
func (r *houseReader) key(rule *Rule, key string, value any) {
	line := r.lines[tomlKey{rule.Kind, key}]
	if key == switchKey {
		on, ok := value.(bool)
		if !ok {
			r.refuse(line, "write on = true or on = false", "%s.%s is %s, neither true nor false", rule.Kind, key, typeWords(value))
		}
		r.house.off[rule] = !on
		return
	}
	i := slices.IndexFunc(rule.Thresholds, func(t *Threshold) bool { return t.Name == key })
	if i < 0 {
		r.refuse(line, fmt.Sprintf("%s takes %s, %s", rule.Kind, switchKey, thresholdNames(rule)), "%s has no threshold %q", rule.Kind, Visible(key))
		return
	}
	t := rule.Thresholds[i]
	v, ok := number(value)
	switch name := rule.Kind + "." + key; {
	case !ok:
		r.refuse(line, "write "+key+" = "+plainNumber(t.Default), "%s is %s, no number", name, typeWords(value))
	case !(v >= t.Min && v <= t.Max):
		r.refuse(line, fmt.Sprintf("it goes from %s to %s (%s)", plainNumber(t.Min), plainNumber(t.Max), t.Unit), "%s is %s, out of range", name, plainNumber(v))
	case t.Whole && v != math.Trunc(v):
		r.refuse(line, "write "+key+" = "+plainNumber(math.Round(v)), "%s is %s, no whole number", name, plainNumber(v))
	default:
		r.house.values[t] = v
	}
}

func number(value any) (float64, bool) {
	switch v := value.(type) {
	case int64:
		return float64(v), true
	case float64:
		return v, true
	}
	return 0, false
}

// typeWords names the type of a TOML value.
func typeWords(value any) string {
	switch value.(type) {
	case string:
		return "a text"
	case bool:
		return "true or false"
	case int64, float64:
		return "a number"
	case []any:
		return "a list"
	case map[string]any:
		return "a table"
	}
	return "a date or time"
}

func ruleNames() string {
	var names []string
	for _, r := range rules {
		names = append(names, r.Kind)
	}
	return strings.Join(names, ", ")
}

func thresholdNames(r *Rule) string {
	var names []string
	for _, t := range r.Thresholds {
		names = append(names, t.Name)
	}
	return strings.Join(names, ", ")
}
