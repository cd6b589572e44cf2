package main

import (
	"bytes"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"github.com/jedib0t/go-pretty/v6/text"
	"golang.org/x/term"

	"holdfast/sheet"
)

// A screen is what text for people is made for: how wide it is, and what it can
// show.
type screen struct {
	width  int
	ascii  bool // letters, figures and signs of ASCII only
	colour bool
}

// screenOf tells what w is from the device and the environment.
func screenOf(w io.Writer) screen {
	f, isTerminal := terminal(w)
	s := environmentScreen(os.Getenv, isTerminal)
	if isTerminal {
		if width, _, err := term.GetSize(int(f.Fd())); err == nil && width > 0 {
			s.width = width
		}
	}
	return s
}

// environmentScreen tells what the environment says of a terminal, or of a file
// or pipe. A locale that is set and is not one of UTF-8 makes it ASCII; a
// terminal without any, or a "dumb" one, is ASCII too. Colour goes to terminals
// only, and to none where NO_COLOR is set to anything (no-color.org).
func environmentScreen(get func(string) string, isTerminal bool) screen {
	named, utf := locale(get)
	dumb := get("TERM") == "dumb"
	return screen{
		width:  sheet.DefaultWidth,
		ascii:  named && !utf || isTerminal && (!named || dumb),
		colour: isTerminal && !dumb && get("NO_COLOR") == "",
	}
}

// locale says whether the environment names one for characters, and whether
// that is of UTF-8. The first of three variables that is not empty decides
// (POSIX.1-2017, Base Definitions 8.2).
func locale(get func(string) string) (named, utf bool) {
	for _, variable := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToLower(get(variable)); v != "" {
			return true, strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return false, false
}

// dress fits text in some form to a screen: tables, which are for people; what
// programs read stays as it is. Neither words nor layout change: a character
// becomes one of the same width, and colour says nothing that the words do not.
func (s screen) dress(table []byte, form string) []byte {
	if form != tableForm {
		return table
	}
	if s.ascii {
		table = inASCII(table)
	}
	if s.colour {
		table = painted(table)
	}
	return table
}

// asciiFor is what stands for a character in plain ASCII. Bars keep their order.
var asciiFor = map[rune]byte{
	'–': '-', '—': '-', '−': '-', '×': 'x', '·': '.', '’': '\'', '‘': '\'', '“': '"', '”': '"',
	'▁': '_', '▂': ':', '▃': '-', '▄': '=', '▅': '+', '▆': '*', '▇': '%', '█': '#',
	'▏': '-', '▎': '-', '▍': '-', '▌': '-', '▋': '=', '▊': '=', '▉': '=',
}

// inASCII puts a character for each that is not ASCII, two where it is wide.
func inASCII(table []byte) []byte {
	var b bytes.Buffer
	for _, r := range string(table) {
		switch plain, ok := asciiFor[r]; {
		case r < utf8.RuneSelf:
			b.WriteRune(r)
		case ok:
			b.WriteByte(plain)
		default:
			b.WriteString(strings.Repeat("?", text.RuneWidth(r)))
		}
	}
	return b.Bytes()
}

// Colours are those of the terminal's own palette, so that they suit its
// background (ECMA-48, SGR).
const (
	paintEnd  = "\x1b[0m"
	paintHead = "\x1b[1m"  // heads of tables
	paintBars = "\x1b[36m" // bars and the line of motion
	paintLook = "\x1b[33m" // what is worth a look
	paintFix  = "\x1b[31m" // what wants a change
)

// weighty are the words that a paragraph about something to see begins with.
var weighty = map[string]string{"Fix": paintFix, "Missing": paintFix, "Look": paintLook, "Warning": paintLook}

// painted colours heads of tables, bars, and the first words of notes and
// warnings.
func painted(table []byte) []byte {
	lines := strings.Split(string(table), "\n")
	out := make([]string, len(lines))
	for i, line := range lines {
		switch word, _, _ := strings.Cut(line, " "); {
		case i+1 < len(lines) && isRule(lines[i+1]):
			out[i] = paintHead + line + paintEnd
		case weighty[strings.TrimRight(word, ",:")] != "":
			word = strings.TrimRight(word, ",:")
			out[i] = weighty[word] + word + paintEnd + line[len(word):]
		default:
			out[i] = paintedBars(line)
		}
	}
	return []byte(strings.Join(out, "\n"))
}

// isRule reports whether a line is the one under a table's head.
func isRule(line string) bool { return line != "" && strings.Trim(line, "-") == "" }

// isBar reports whether a character is a part of a bar.
func isBar(r rune) bool { return r >= '▁' && r <= '▏' }

// paintedBars colours the bars in a line.
func paintedBars(line string) string {
	var b strings.Builder
	within := false
	for _, r := range line {
		if isBar(r) != within {
			within = !within
			b.WriteString(map[bool]string{true: paintBars, false: paintEnd}[within])
		}
		b.WriteRune(r)
	}
	if within {
		b.WriteString(paintEnd)
	}
	return b.String()
}
