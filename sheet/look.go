package sheet

import (
	"fmt"
	"math"
	"strings"
)

// A Look is one turn of a marked head or of marked eyes, from the first frame on which
// it has changed to the first on which it rests.
type Look struct {
	Kind  string  `json:"kind"` // LookDart or LookTurn
	Way   string  `json:"way"`  // left, right, up or down, as the screen has them
	Start int     `json:"start"`
	End   int     `json:"end"`
	Peak  int     `json:"peak"`     // the frame to which it goes farthest
	Size  float64 `json:"size"`     // against the part's width
	Rest  int     `json:"rest"`     // frames from End on before the next look
	Cut   bool    `json:"rest_cut"` // the rest goes on after what is known
}

// Kinds of looks.
const (
	LookDart = "dart" // small
	LookTurn = "turn" // of the whole head
)

var lookWays = map[string]bool{"left": true, "right": true, "up": true, "down": true}

// A LookPattern says in words how the looks of one stretch follow each other.
type LookPattern struct {
	Start int    `json:"start"`
	End   int    `json:"end"`
	Text  string `json:"text"` // given by Complete
}

const (
	// togetherSeconds is the longest rest within one pattern (common practice, no
	// source).
	togetherSeconds = 1.0
	// patternLooks is the fewest looks that make a pattern.
	patternLooks = 3
	// readSeconds is how long a look must rest to be read: six frames at 24 a second
	// (common practice, no source).
	readSeconds = 0.25
	// evenLooks is the variation, standard deviation over mean, of the times from look
	// to look up to which they are evenly timed, where they are evenLeast or more.
	evenLooks = 0.12
	evenLeast = 4
	// settlesTo is the most the last look of a settling pattern may be of the first.
	settlesTo = 0.6
	// wordedLooks is the most ways that are named one by one.
	wordedLooks = 8
)

// completeLooks rounds and words the patterns.
func (s *Sheet) completeLooks(p *Part) {
	for i := range p.Looks {
		p.Looks[i].Size = round(p.Looks[i].Size, shareDigits)
	}
	p.Patterns = nil
	for start := 0; start < len(p.Looks); {
		end := start
		for end+1 < len(p.Looks) && !p.Looks[end].Cut && s.Clip.length(p.Looks[end].Rest) <= togetherSeconds {
			end++
		}
		if list := p.Looks[start : end+1]; len(list) >= patternLooks {
			p.Patterns = append(p.Patterns, LookPattern{list[0].Start, list[len(list)-1].End, s.patternWords(list)})
		}
		start = end + 1
	}
}

// patternWords says what looks have in common.
func (s *Sheet) patternWords(list []Look) string {
	var ways []string
	for _, l := range list[:min(len(list), wordedLooks)] {
		ways = append(ways, l.Way)
	}
	words := []string{strings.Join(ways, ", ")}
	if n := len(list) - wordedLooks; n > 0 {
		words[0] += fmt.Sprintf(" and %d more", n)
	}
	if settles(list) {
		words = append(words, "settling")
	}
	if evenlyTimed(list) {
		words = append(words, "evenly timed")
	}
	longest := 0
	for _, l := range list[:len(list)-1] {
		longest = max(longest, l.Rest)
	}
	if s.Clip.length(longest) < readSeconds {
		words = append(words, fmt.Sprintf("no rest long enough to read (%d f at most)", longest))
	}
	return strings.Join(words, "; ")
}

// settles reports whether looks get smaller and smaller.
func settles(list []Look) bool {
	for i, l := range list[1:] {
		if l.Size > list[i].Size {
			return false
		}
	}
	return list[len(list)-1].Size <= settlesTo*list[0].Size
}

// evenlyTimed reports whether looks set in at even intervals.
func evenlyTimed(list []Look) bool {
	if len(list) < evenLeast {
		return false
	}
	n, sum, squares := float64(len(list)-1), 0.0, 0.0
	for i, l := range list[1:] {
		v := float64(l.Start - list[i].Start)
		sum, squares = sum+v, squares+v*v
	}
	mean := sum / n
	return math.Sqrt(max(0, squares/n-mean*mean)) <= evenLooks*mean
}

// checkLooks wants looks within the part's shot, one after the other.
func (p *Part) checkLooks(list string) error {
	next := p.Start
	for i, l := range p.Looks {
		if err := within(list, i, l.Start, l.End, next, p.End); err != nil {
			return err
		}
		next = l.End + 1
		switch {
		case l.Kind != LookDart && l.Kind != LookTurn:
			return bad(at(list, i, "kind"), "is %q", Visible(l.Kind))
		case !lookWays[l.Way]:
			return bad(at(list, i, "way"), "is %q", Visible(l.Way))
		case l.Peak < l.Start || l.Peak > l.End:
			return bad(at(list, i, "peak"), "is not within the look")
		case !(l.Size > 0):
			return bad(at(list, i, "size"), "is %g", l.Size)
		case l.Rest < 0 || l.Rest > p.End-l.End+1:
			return bad(at(list, i, "rest"), "is %d", l.Rest)
		}
	}
	return nil
}
