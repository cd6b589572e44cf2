// Package compare lines two beat sheets up: a reference against a pass, or one
// pass against the next. It says what the pass lacks, adds, shortens or
// stretches, in frames of the pass.
//
// Beats are lined up in order by dynamic programming; a constant offset and a
// constant speed are found first and taken out, as they are the usual cause.
package compare

import (
	"math"

	"holdfast/sheet"
)

// Format and Version name the JSON this package writes.
const (
	Format  = "holdfast-comparison"
	Version = 1
)

// A Comparison is two sheets lined up. Frame numbers are those of their own
// clip, lengths and offsets are in frames of the pass; what the speed and the
// offset account for is taken out of them.
type Comparison struct {
	Format    string     `json:"format"`
	Version   int        `json:"format_version"`
	Tool      sheet.Tool `json:"tool"`
	Reference sheet.Clip `json:"reference"`
	Pass      sheet.Clip `json:"pass"`

	// Likeness is how much better the two agree than by chance: 1 for the same
	// timing, 0 for what shuffled beats reach. Of clips with hardly any beats, and of
	// those whose beats were measured otherwise though frame by frame as much moves
	// in both, it is the correlation of their motion curves.
	Likeness float64 `json:"likeness"`
	Related  bool    `json:"related"` // else nothing below is filled in
	Speed    float64 `json:"speed"`   // of the pass; 1.25 takes four fifths of the time
	Offset   int     `json:"offset"`  // frames by which the pass comes later from its first beat on
	Longer   int     `json:"longer"`  // frames by which the pass runs longer, speed taken out

	Summary     []string     `json:"summary"` // what a person would say aloud
	Beats       []Pair       `json:"beats"`
	Contacts    []Pair       `json:"contacts"`
	Flights     []Pair       `json:"flights"`
	Cuts        []Pair       `json:"cuts"`
	Differences []Difference `json:"differences"`

	warp timeMap
}

// States of a pair.
const (
	Matched = "matched"
	Missing = "missing" // of the reference only
	Extra   = "extra"   // of the pass only
	Split   = "split"   // one of the reference, several of the pass
	Merged  = "merged"  // several of the reference, one of the pass
	Swapped = "swapped" // matched, but in another order
)

// A Pair is what both clips do, or one of them alone.
type Pair struct {
	State     string `json:"state"`
	Kind      string `json:"kind"` // hold, move, plant, slide, hop, cut
	Reference *Span  `json:"reference,omitempty"`
	Pass      *Span  `json:"pass,omitempty"`

	// Of a pair of which both sides are there.
	Start  *int `json:"start_offset,omitempty"` // frames by which it starts later in the pass
	End    *int `json:"end_offset,omitempty"`
	Longer *int `json:"longer,omitempty"` // frames
	// Of moves and flights: against the reference, 1 as big.
	Peak *int     `json:"peak_offset,omitempty"` // frames, counted from the start of the move
	Size *float64 `json:"size_ratio,omitempty"`
}

// A Span is a stretch of frames of one clip.
type Span struct {
	IDs    []int `json:"ids"` // of the beats, contacts or flights in it
	Start  int   `json:"start"`
	End    int   `json:"end"`
	Frames int   `json:"frames"`
}

// New compares a pass with its reference. Both sheets must be complete and have
// passed their Check.
func New(reference, pass *sheet.Sheet, tool sheet.Tool) *Comparison {
	f, likeness, least := relate(lineOf(reference), lineOf(pass))
	c := &Comparison{
		Format: Format, Version: Version, Tool: tool, Reference: reference.Clip, Pass: pass.Clip,
		Likeness: round(likeness, 4), Related: likeness >= least, Speed: 1,
		Beats: []Pair{}, Contacts: []Pair{}, Flights: []Pair{}, Cuts: []Pair{}, Differences: []Difference{},
	}
	if c.Related {
		c.lineUp(f, reference, pass)
	}
	c.Summary = c.say(f, least)
	return c
}

// lineUp fills in what there is to say of two clips that are related.
func (c *Comparison) lineUp(f *fit, reference, pass *sheet.Sheet) {
	c.Speed = round(natural(f.reference, f.pass)/f.stretch, 4)
	c.Offset = int(math.Round(f.offset))
	c.Longer = pass.Clip.Frames - int(math.Round(f.stretch*float64(reference.Clip.Frames)))
	c.warp = f.timeMap()
	b := both{f, reference, pass, c.warp}
	c.Beats = b.beats()
	c.Contacts = b.contacts()
	c.Flights = b.flights()
	c.Cuts = b.cuts()
	c.Differences = b.differences(c)
}

func round(x float64, digits int) float64 {
	scale := math.Pow10(digits)
	return math.Round(x*scale) / scale
}
