package extract

import (
	"fmt"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"
)

// SafeName returns the last element of a path, fit to be shown on a terminal
// and put into a report: control characters, characters that change the
// direction or hide text (bidirectional marks, zero width) and bytes that are
// no UTF-8 are written as escapes.
func SafeName(path string) string { return escape(filepath.Base(path)) }

// escape writes what must not reach a terminal as \x.. or \u.....
func escape(s string) string {
	var b strings.Builder
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case unsafeRune(r) && r < 0x100:
			fmt.Fprintf(&b, `\x%02x`, r)
		case unsafeRune(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteString(s[i : i+size])
		}
		i += size
	}
	return b.String()
}

// unsafeRune tells of controls (C0, C1), format characters (category Cf holds
// the bidirectional controls of Unicode Annex 9 and the zero-width ones) and
// the line and paragraph separators.
func unsafeRune(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == 0x2028 || r == 0x2029
}

// quoteName quotes text that came from outside for a message.
func quoteName(s string) string { return `"` + escape(s) + `"` }
