package sheet

import (
	"fmt"
	"math"
	"slices"
)

// A Rule says what a reviewer would remark on, and from which numbers on.
type Rule struct {
	Kind       string       // of its notes: lower-case words joined by hyphens
	Measures   string       // what it looks at, as a reviewer would say it
	Weights    []string     // that its notes may have, the lighter first
	Thresholds []*Threshold // every number that decides about its notes
	Gauge      Gauge        // by what its notes get worse or better
	find       func(*review) []Note
}

// A Threshold is a number that a rule compares with. A house may set another
// between Min and Max.
type Threshold struct {
	Name    string  // lower-case words joined by underscores, as in settings, notes and house files
	Unit    string  // of all three numbers; a share is a fraction of 1
	Default float64 // what is in force where no house says otherwise
	Min     float64
	Max     float64
	Whole   bool   // it counts: fractions mean nothing
	Reason  string // why the default is what it is
	Source  string // what that rests on
}

// What the default of a threshold rests on where it is no published value.
const (
	practice = "common practice, no source"
	accuracy = "how well it is measured here"
)

// Units of thresholds.
const (
	inHeights  = "figure heights"
	inFrames   = "frames"
	inFrames24 = "frames at 24 fps"
	inSeconds  = "s"
	inShare    = "share"
	inFactor   = "factor"
	inCount    = "count"
)

// rules are all the rules there are, in the order their notes stand where they
// begin on one frame. A new rule is one file and one entry here.
var rules = []*Rule{
	slideRule, rootedRule, floatyRule, dropRule, evenHopsRule, footPopRule, rhythmRule,
	popRule, hitchRule, deadHoldRule, shortHoldRule, withoutHoldRule, evenTimingRule, sameSizeRule,
	soundOffsetRule, lateGesturesRule, pauseWithoutHoldRule, frozenWordsRule,
	repeatedPoseRule, weakPoseRule,
	lowFramingRule, tightHeadroomRule, edgeCutRule,
	twinningRule,
}

// A review is a sheet seen under the rules of a house.
type review struct {
	*Sheet
	house *House
}

// at is what a threshold is in this review.
func (r *review) at(t *Threshold) float64 { return r.house.Value(t) }

// whole is the same for one that counts.
func (r *review) whole(t *Threshold) int { return int(r.at(t)) }

// frames24 is how many whole frames a threshold in frames at 24 fps comes to at
// the clip's rate: two are two at 24000/1001 as well.
func (r *review) frames24(t *Threshold) int {
	return max(1, int(math.Round(r.at(t)*r.Clip.FPS.Float()/24)))
}

// note adds the notes of every rule that is on, in the order of their frames.
func (r *review) note() {
	for _, rule := range rules {
		if !r.house.On(rule) {
			continue
		}
		for _, n := range rule.find(r) {
			n.Kind = rule.Kind
			for _, t := range rule.Thresholds {
				n.Measured[t.Name] = r.at(t)
			}
			r.Notes = append(r.Notes, n)
		}
	}
	slices.SortStableFunc(r.Notes, func(a, b Note) int { return a.Start - b.Start })
}

// whose names a figure where a shot has several: "figure 2's " or "the ".
func (s *Sheet) whose(figure int) string {
	if figure == 0 {
		return "the "
	}
	shot := s.Figures[figure-1].Shot
	for _, f := range s.Figures {
		if f.Shot == shot && f.ID != figure {
			return fmt.Sprintf("figure %s's ", figureName(figure))
		}
	}
	return "the "
}

// who is the same for the figure itself: "figure 2" or "the figure".
func (s *Sheet) who(figure int) string {
	if s.whose(figure) == "the " {
		return "the figure"
	}
	return "figure " + figureName(figure)
}
