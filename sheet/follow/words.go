package follow

import (
	"fmt"
	"strings"

	"holdfast/sheet"
	"holdfast/sheet/internal/page"
)

// states are all states in the order in which they are told: what wants work
// first.
var states = []string{Worse, Back, New, Remains, Better, Fixed}

// say is the summary: what became of the notes in a sentence, and what does not
// belong together.
func (h *History) say() []string {
	var list []string
	for i, related := range h.Related {
		if !related {
			list = append(list, fmt.Sprintf("Pass %d does not look like the acting of pass %d: their notes are held against each other by time alone.", i+2, i+1))
		}
	}
	if len(h.Notes) == 0 {
		return append(list, "No notes in any pass.")
	}
	count := map[string]int{}
	open := 0
	for _, t := range h.Notes {
		count[t.State]++
		if t.State != Fixed && t.Weight == sheet.WeightFix {
			open++
		}
	}
	var parts []string
	for _, s := range states {
		if n := count[s]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, stateWords[s]))
		}
	}
	list = append(list, fmt.Sprintf("Of %s: %s.", page.Count(len(h.Notes), "note"), strings.Join(parts, ", ")))
	if open > 0 {
		list = append(list, fmt.Sprintf("%d still to fix.", open))
	}
	return list
}

// stateWords is how a state is said of several notes.
var stateWords = map[string]string{
	Worse: "got worse", Back: "came back", New: "new", Remains: "still there", Better: "got better", Fixed: "fixed",
}

// words is a note in one pass, in a cell: its frames and its number.
func (s *Sighting) words() string {
	if s == nil {
		return "–"
	}
	return page.Span(s.Start, s.End) + s.valueWords()
}

// valueWords writes the number in the unit its name ends in.
func (s *Sighting) valueWords() string {
	switch {
	case s.Measure == "":
		return ""
	case strings.HasSuffix(s.Measure, "_share"):
		return fmt.Sprintf(", %.1f %%", 100*s.Value)
	case strings.HasSuffix(s.Measure, "seconds"):
		return fmt.Sprintf(", %.1f s", s.Value)
	case strings.HasSuffix(s.Measure, "frames"):
		return fmt.Sprintf(", %.0f f", s.Value)
	}
	return fmt.Sprintf(", %.2g", s.Value)
}
