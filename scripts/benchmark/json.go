package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// A record is one trial as --json writes it.
type record struct {
	Set     string  `json:"set"`
	Scene   string  `json:"scene"`
	Variant string  `json:"variant"`
	Size    string  `json:"size"`
	Frames  int     `json:"frames"`
	Score   *Score  `json:"score"`
	Faults  []Fault `json:"faults"`
}

// writeJSON writes every trial by itself, whole or not at all.
func writeJSON(path string, trials []*trial) error {
	records := make([]record, len(trials))
	for i, t := range trials {
		records[i] = record{t.set, t.scene, t.variant, sizeName(t.size), t.frames, &t.score, append([]Fault{}, t.faults...)}
	}
	text, err := json.MarshalIndent(records, "", " ")
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	f, err := os.CreateTemp(filepath.Dir(path), ".bench-*")
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(append(text, '\n'))
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return fmt.Errorf("write %s: %w", path, err)
	}
	return nil
}
