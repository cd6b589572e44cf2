package sheet

import (
	"fmt"
	"html"
	"regexp"
	"strconv"
	"strings"
)

var (
	cueTiming = regexp.MustCompile(`^\s*(?:(\d{2,4}):)?([0-5]\d):([0-5]\d)\.(\d{3})\s+-->\s+(?:(\d{2,4}):)?([0-5]\d):([0-5]\d)\.(\d{3})(?:\s.*)?$`)
	cueTag    = regexp.MustCompile(`</?[a-zA-Z0-9][^>]*>`)
)

// readCues reads the cues of a WebVTT file; comments, styles and regions are
// passed over, settings and markup of cues are dropped.
func readCues(lines []string) (list []PlacedRemark, err error) {
	for i := 1; i < len(lines); {
		block := i
		for i < len(lines) && strings.TrimSpace(lines[i]) != "" {
			i++
		}
		if i > block {
			r, ok, err := readCue(lines[block:i], block+1)
			if err != nil {
				return nil, err
			}
			if ok {
				list = append(list, r)
			}
		}
		i++
	}
	return list, nil
}

// readCue reads one block of lines; ok is false for one that is no cue.
func readCue(block []string, line int) (r PlacedRemark, ok bool, err error) {
	for i, l := range block[:min(2, len(block))] { // a name may stand before the times
		if !strings.Contains(l, "-->") {
			continue
		}
		m := cueTiming.FindStringSubmatch(l)
		if m == nil {
			return r, false, &RemarkError{line + i, "has times that WebVTT does not know"}
		}
		text := html.UnescapeString(cueTag.ReplaceAllString(strings.Join(block[i+1:], " "), ""))
		r = PlacedRemark{Line: line + i, Text: strings.TrimSpace(text), cue: true, from: cueMillis(m[1:5]), to: cueMillis(m[5:9])}
		if r.to <= r.from {
			return r, false, &RemarkError{r.Line, fmt.Sprintf("ends before it begins: %s", strings.TrimSpace(l))}
		}
		return r, true, r.check()
	}
	return r, false, nil
}

// cueMillis is the time of hours, minutes, seconds and milliseconds; hours may
// be missing.
func cueMillis(parts []string) int64 {
	total := int64(0)
	for i, scale := range []int64{3600_000, 60_000, 1000, 1} {
		n, _ := strconv.ParseInt(parts[i], 10, 64) // digits only, as the pattern has it
		total += n * scale
	}
	return total
}
