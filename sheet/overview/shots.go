package overview

import (
	"fmt"
	"path"
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
// a number, or ref or reference for what the shot is held against. Folders may
// belong to it: pass{pass}/{shot}.
func ParsePattern(text string) (Pattern, error) {
	if strings.Count(text, "{shot}") != 1 || strings.Count(text, "{pass}") != 1 {
		return Pattern{}, fmt.Errorf("%q does not hold {shot} and {pass} once each", text)
	}
	q := regexp.QuoteMeta(text)
	q = strings.Replace(q, `\{shot\}`, `(?P<shot>[^/]+?)`, 1)
	q = strings.Replace(q, `\{pass\}`, `(?P<pass>[0-9]{1,9}|ref|reference)`, 1)
	names, err := regexp.Compile(`(?i)^` + q + `$`)
	return Pattern{text, names}, err
}

// String is the pattern as it was written; empty for the zero Pattern.
func (p Pattern) String() string { return p.text }

// besides are names of references that are read whatever the pattern: the shot's
// own with a word behind it (common practice, no source).
var besides = regexp.MustCompile(`(?i)^(?:.*/)?([^/]+?)[ ._-](?:ref|reference)$`)

// frameNumbers end the name of an image sequence, with what sets them off.
var frameNumbers = regexp.MustCompile(`[ ._-]?(?:%0?[0-9]*d|\[[0-9]+-[0-9]+\])$`)

// NameOf is what a pattern reads of the path of a clip: with its folders, without
// the suffix and the frame numbers of a sequence.
func NameOf(p string) string {
	p = strings.TrimSuffix(p, path.Ext(p))
	return frameNumbers.ReplaceAllString(p, "")
}

// tail is the last part of a name, with as many folders as the pattern has.
func (p Pattern) tail(name string) string {
	parts := strings.Split(name, "/")
	return strings.Join(parts[max(0, len(parts)-1-strings.Count(p.text, "/")):], "/")
}

// split returns the shot and the pass that a name tells, which may stand in
// folders; the reference's pass is 0.
func (p Pattern) split(name string) (shot string, pass int, ref, ok bool) {
	if p.names == nil {
		return name, 0, false, false
	}
	name = p.tail(name)
	m := p.names.FindStringSubmatch(name)
	if m == nil {
		if m = besides.FindStringSubmatch(name); m != nil {
			return m[1], 0, true, true
		}
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
	"v{pass}/{shot}", "pass{pass}/{shot}", "pass_{pass}/{shot}", "{shot}/v{pass}", "{shot}/pass{pass}",
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
