package sheet

import "holdfast/sheet/internal/page"

// Visible returns s with everything that does not print as itself written
// out: control characters, bidirectional and other format characters, odd
// spaces and bytes that are no UTF-8. A terminal, a page or a spreadsheet can
// show the result without being told what to do by it.
func Visible(s string) string { return page.Visible(s) }
