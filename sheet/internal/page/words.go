package page

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Span writes a range of frames with both ends.
func Span(start, end int) string {
	if start == end {
		return strconv.Itoa(start)
	}
	return fmt.Sprintf("%d–%d", start, end)
}

// Frames writes a range of frames and what they are.
func Frames(start, end int) string {
	if start == end {
		return "frame " + Span(start, end)
	}
	return "frames " + Span(start, end)
}

// Count writes how many there are of a thing.
func Count(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

// Capital begins a line with a capital letter.
func Capital(s string) string {
	_, size := utf8.DecodeRuneInString(s)
	return strings.ToUpper(s[:size]) + s[size:]
}
