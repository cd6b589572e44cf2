package page

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Visible returns s with everything that does not print as itself written
// out: control characters, bidirectional and other format characters, odd
// spaces and bytes that are no UTF-8. A terminal, a page or a spreadsheet can
// show the result without being told what to do by it.
func Visible(s string) string {
	clean := true
	for _, r := range s {
		clean = clean && r != utf8.RuneError && strconv.IsPrint(r)
	}
	if clean {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case strconv.IsPrint(r):
			b.WriteRune(r)
		default:
			quoted := strconv.QuoteRuneToASCII(r)
			b.WriteString(quoted[1 : len(quoted)-1])
		}
		i += size
	}
	return b.String()
}
