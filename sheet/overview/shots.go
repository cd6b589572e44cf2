package overview

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Pattern tells the shot and the pass from the name of a clip. The zero Pattern
// takes each clip for a shot of its own.
type Pattern struct {
	text  string
	names *regexp.Regexp
}

// reference stands for the pass where a name says that it is what the shot is
// held against.
const reference = "reference"

// ParsePattern understands names such as {shot}_v{pass}: {shot} is any text, {pass}
// a number, or ref or reference for what the shot is held against.
func ParsePattern(text string) (Pattern, error) {
	if strings.Count(text, "{shot}") != 1 || strings.Count(text, "{pass}") != 1 {
		return Pattern{}, fmt.Errorf("%q does not hold {shot} and {pass} once each", text)
	}
	q := regexp.QuoteMeta(text)
	q = strings.Replace(q, `\{shot\}`, `(?P<shot>.+?)`, 1)
	q = strings.Replace(q, `\{pass\}`, `(?P<pass>[0-9]{1,9}|ref|reference)`, 1)
	names, err := regexp.Compile(`(?i)^` + q + `$`)
	return Pattern{text, names}, err
}

// String is the pattern as it was written; empty for the zero Pattern.
func (p Pattern) String() string { return p.text }

// split returns the shot and the pass that a name tells; the reference's pass is 0.
func (p Pattern) split(name string) (shot string, pass int, ref, ok bool) {
	if p.names == nil {
		return name, 0, false, false
	}
	m := p.names.FindStringSubmatch(name)
	if m == nil {
		return name, 0, false, false
	}
	shot, text := m[p.names.SubexpIndex("shot")], strings.ToLower(m[p.names.SubexpIndex("pass")])
	if text == "ref" || text == reference {
		return shot, 0, true, true
	}
	pass, err := strconv.Atoi(text)
	return shot, pass, false, err == nil
}

// guesses are the patterns in use (common practice, no source), the more telling
// ones first.
var guesses = []string{
	"{shot}_v{pass}", "{shot}.v{pass}", "{shot}-v{pass}", "{shot} v{pass}",
	"{shot}_pass{pass}", "{shot}-pass{pass}", "{shot}_p{pass}", "{shot}-p{pass}", "{shot}_take{pass}",
	"{shot}_{pass}", "{shot}-{pass}", "{shot}.{pass}", "{shot} {pass}",
}

// Guess returns the pattern that finds most passes of shots in some names, those
// that are the only one of their shot not counted; the zero Pattern where none
// finds two of one.
func Guess(names []string) Pattern {
	var best Pattern
	most := 0
	for _, text := range guesses {
		p, err := ParsePattern(text)
		if err != nil {
			panic(err) // one of ours
		}
		passes := map[string]int{}
		for _, name := range names {
			if shot, _, _, ok := p.split(name); ok {
				passes[strings.ToLower(shot)]++
			}
		}
		found := 0
		for _, n := range passes {
			if n > 1 {
				found += n
			}
		}
		if found > most {
			best, most = p, found
		}
	}
	return best
}
