package main

import (
	"fmt"
	"strings"

	"github.com/urfave/cli/v2"

	"holdfast/sheet"
)

// exitFound is the exit code of a run that did all it should and found what
// --fail-on asks about.
const exitFound = 1

// A foundError says that a sheet holds what --fail-on asks about. By then
// everything is printed and written.
type foundError struct{ text string }

func (e *foundError) Error() string { return e.text }

func failOnFlag() cli.Flag {
	return &cli.StringFlag{Name: "fail-on", Usage: "exit with 1 where the clip has a note of `WEIGHT`, fix, or look for either; a pipeline can stop there"}
}

// readFailOn returns the lightest weight that --fail-on asks about, "" for none.
func readFailOn(c *cli.Context) (string, error) {
	weight := c.String("fail-on")
	if c.IsSet("fail-on") && weight != sheet.WeightFix && weight != sheet.WeightLook {
		return "", usage(fmt.Sprintf("--fail-on %s: there is no such weight", sheet.Visible(weight)),
			"notes are a "+sheet.WeightFix+", or a "+sheet.WeightLook)
	}
	return weight, nil
}

// countedWords are what so many notes of a weight are called.
var countedWords = map[string]string{sheet.WeightFix: "to fix", sheet.WeightLook: "worth a look"}

// failOn reports the notes of a weight, or of a heavier one, as a *foundError.
func failOn(weight string, s *sheet.Sheet) error {
	if weight == "" {
		return nil
	}
	count := map[string]int{}
	for _, n := range s.Notes {
		count[n.Weight]++
	}
	var found []string
	for _, w := range []string{sheet.WeightFix, sheet.WeightLook} {
		if n := count[w]; n > 0 {
			found = append(found, fmt.Sprintf("%d %s", n, countedWords[w]))
		}
		if w == weight {
			break
		}
	}
	if len(found) == 0 {
		return nil
	}
	return &foundError{fmt.Sprintf("%s: notes found: %s", sheet.Visible(s.Clip.Name), strings.Join(found, ", "))}
}
