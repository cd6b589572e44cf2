package main

import (
	"fmt"

	"holdfast/extract"
)

// A care is the option of the program that sets how large the pictures are that
// it measures, without its dashes; empty: the usual ones.
type care string

// cares are the number of pixels of each.
var cares = map[care]int{"": extract.UsualArea, "quick": extract.QuickArea, "careful": extract.CarefulArea}

func (c care) check() error {
	if _, ok := cares[c]; !ok {
		return fmt.Errorf("--care %q is neither quick nor careful", string(c))
	}
	return nil
}

// options are those of the program.
func (c care) options() []string {
	if c == "" {
		return nil
	}
	return []string{"--" + string(c)}
}
