package extract

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// defaultSequenceRate is the rate of a sequence for which none was given.
var defaultSequenceRate = Rate{24, 1}

// sequenceExtensions are the still formats whose decoders are trusted.
var sequenceExtensions = []string{".png", ".jpg", ".jpeg", ".webp", ".bmp", ".tga"}

// pattern is a parsed sequence name: literal text around one number.
type pattern struct {
	prefix, suffix string
	width          int // digits at least, filled up with zeros; 0 when not filled up
	first, last    int64
	ranged         bool // first and last were given
}

var (
	percentNumber = regexp.MustCompile(`%(?:0(\d{1,2}))?d`)
	bracketNumber = regexp.MustCompile(`\[(\d{1,18})-(\d{1,18})\]`)
)

// maxDigits bounds the width of a number: an int64 has 18 full digits.
const maxDigits = 18

// parsePattern reads "shot.%04d.png", "f%d.jpg" or "shot.[1001-1096].png".
// ok is false when the name holds no number at all; the error says what is
// wrong with one that does.
func parsePattern(base string) (p pattern, ok bool, err error) {
	percents := percentNumber.FindAllStringSubmatchIndex(base, -1)
	brackets := bracketNumber.FindAllStringSubmatchIndex(base, -1)
	if len(percents)+len(brackets) == 0 {
		return pattern{}, false, nil
	}
	if len(percents)+len(brackets) > 1 {
		return pattern{}, true, fmt.Errorf("it holds more than one number")
	}
	if len(percents) == 1 {
		m := percents[0]
		p = pattern{prefix: base[:m[0]], suffix: base[m[1]:]}
		if m[2] >= 0 {
			p.width, _ = strconv.Atoi(base[m[2]:m[3]])
		}
		if p.width > maxDigits {
			return pattern{}, true, fmt.Errorf("its number has more than %d digits", maxDigits)
		}
		return p, true, nil
	}
	m := brackets[0]
	from, to := base[m[2]:m[3]], base[m[4]:m[5]]
	p = pattern{prefix: base[:m[0]], suffix: base[m[1]:], ranged: true}
	p.first, _ = strconv.ParseInt(from, 10, 64)
	p.last, _ = strconv.ParseInt(to, 10, 64)
	if p.last < p.first {
		return pattern{}, true, fmt.Errorf("its range runs backwards")
	}
	if len(from) == len(to) {
		p.width = len(from)
	}
	return p, true, nil
}

// fileName gives the name of one frame.
func (p pattern) fileName(n int64) string {
	return p.prefix + fmt.Sprintf("%0*d", p.width, n) + p.suffix
}

// number reads the number of a file name; ok only when the pattern would
// write that very name.
func (p pattern) number(name string) (int64, bool) {
	middle, ok := strings.CutPrefix(name, p.prefix)
	if !ok {
		return 0, false
	}
	middle, ok = strings.CutSuffix(middle, p.suffix)
	if !ok || len(middle) > maxDigits {
		return 0, false
	}
	n, ok := digits(middle)
	return n, ok && p.fileName(n) == name
}

// sequence is a run of numbered pictures without gaps.
type sequence struct {
	dir     string
	pattern pattern
	first   int64
	count   int64
}

// foreign is how other programs, and shells, write the numbers of a sequence.
var foreign = regexp.MustCompile(`##|@@|\$F|[*?]`)

// findSequence lists the numbers of a sequence. It returns nil when the name
// is no pattern, and an *InputError or *GapError when it is one that cannot be
// used.
func findSequence(ctx context.Context, path string) (*sequence, error) {
	dir, base := filepath.Split(path)
	p, ok, err := parsePattern(base)
	if !ok && foreign.MatchString(base) {
		return nil, inputError(path, BadPattern, "")
	}
	if !ok {
		return nil, nil
	}
	if err != nil {
		return nil, inputError(path, BadPattern, err.Error())
	}
	if !slices.Contains(sequenceExtensions, strings.ToLower(filepath.Ext(base))) {
		return nil, inputError(path, BadPattern, "sequences are read from "+strings.Join(sequenceExtensions, " "))
	}
	numbers, err := listNumbers(dir, p)
	if err != nil {
		return nil, statError(dir, err)
	}
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}
	if len(numbers) == 0 {
		return nil, inputError(path, NoMatch, "")
	}
	if missing := p.missing(numbers); len(missing) > 0 {
		return nil, &GapError{Name: SafeName(path), Missing: missing}
	}
	s := &sequence{dir: dir, pattern: p, first: numbers[0], count: int64(len(numbers))}
	return s, s.checkFirst()
}

// listNumbers returns the numbers that exist, sorted.
func listNumbers(dir string, p pattern) ([]int64, error) {
	d, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	defer d.Close()
	names, err := d.Readdirnames(-1)
	if err != nil {
		return nil, err
	}
	var numbers []int64
	for _, name := range names {
		n, ok := p.number(name)
		if ok && (!p.ranged || n >= p.first && n <= p.last) {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	return numbers, nil
}

// missing returns the holes in sorted numbers, and at both ends when the
// range was given.
func (p pattern) missing(numbers []int64) []NumberRange {
	var gaps []NumberRange
	want := numbers[0]
	if p.ranged {
		want = p.first
	}
	for _, n := range numbers {
		if n > want {
			gaps = append(gaps, NumberRange{want, n - 1})
		}
		want = n + 1
	}
	if p.ranged && want <= p.last {
		gaps = append(gaps, NumberRange{want, p.last})
	}
	return gaps
}

// checkFirst looks at the first file as at a single one.
func (s *sequence) checkFirst() error {
	path := s.file(0)
	info, err := os.Stat(path)
	if err != nil {
		return statError(path, err)
	}
	if err := checkRegular(path, info); err != nil {
		return err
	}
	if strings.EqualFold(filepath.Ext(path), ".tga") {
		return nil // this format has no mark to be known by
	}
	s0, err := sniffFile(path)
	if err == nil && s0.force == "" {
		err = inputError(path, NotClip, "not a picture")
	}
	return err
}

// file returns the path of the i-th frame, counted from 0.
func (s *sequence) file(i int64) string {
	return filepath.Join(s.dir, s.pattern.fileName(s.first+i))
}

// escapedPattern returns the pattern as image2 reads it, where every percent
// sign of the folder and of the literal parts is doubled.
func (s *sequence) escapedPattern() string {
	number := "%d"
	if s.pattern.width > 0 {
		number = fmt.Sprintf("%%0%dd", s.pattern.width)
	}
	return escapePercent(s.dir) + escapePercent(s.pattern.prefix) + number + escapePercent(s.pattern.suffix)
}
