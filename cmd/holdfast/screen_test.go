package main

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/jedib0t/go-pretty/v6/text"
)

func TestEnvironmentScreen(t *testing.T) {
	type env map[string]string
	for _, c := range []struct {
		env           env
		terminal      bool
		ascii, colour bool
	}{
		{env{}, false, false, false},
		{env{}, true, true, true},
		{env{"LANG": "de_DE.UTF-8"}, true, false, true},
		{env{"LANG": "de_DE.utf8"}, true, false, true},
		{env{"LANG": "de_DE.UTF-8", "LC_ALL": "C"}, true, true, true},
		{env{"LANG": "C", "LC_CTYPE": "C.UTF-8"}, true, false, true},
		{env{"LANG": "C", "LC_ALL": ""}, false, true, false},
		{env{"LANG": "C.UTF-8"}, false, false, false},
		{env{"LANG": "C.UTF-8", "NO_COLOR": "1"}, true, false, false},
		{env{"LANG": "C.UTF-8", "NO_COLOR": ""}, true, false, true},
		{env{"LANG": "C.UTF-8", "TERM": "dumb"}, true, true, false},
		{env{"LANG": "en_US.ISO-8859-1"}, true, true, true},
	} {
		got := environmentScreen(func(k string) string { return c.env[k] }, c.terminal)
		if got.ascii != c.ascii || got.colour != c.colour {
			t.Errorf("%v, terminal %v: %+v", c.env, c.terminal, got)
		}
	}
}

const dressed = `walk – 日本.mp4
960 × 540 pixels

beat  frames  size
--------------------
   1  1–24    ▍
   2  25–28   ████▊

·▁▂▃▄▅▆▇█
Fix, frames 1–3: too short
Look, frame 4: odd
Warning: no sound
`

var escapes = regexp.MustCompile("\x1b\\[[0-9]+m")

func TestASCIIKeepsTheLayout(t *testing.T) {
	got := string(inASCII([]byte(dressed)))
	before, after := strings.Split(dressed, "\n"), strings.Split(got, "\n")
	for i := range before {
		if text.StringWidth(before[i]) != len(after[i]) {
			t.Errorf("%q became %q", before[i], after[i])
		}
	}
	if strings.IndexFunc(got, func(r rune) bool { return r > '~' }) >= 0 {
		t.Errorf("not ASCII: %q", got)
	}
	if bars := "._:-=+*%#"; !strings.Contains(got, bars) {
		t.Errorf("the line of motion is not %q in %q", bars, got)
	}
}

// Colour may be taken away and nothing is lost.
func TestColourIsNoCarrier(t *testing.T) {
	got := painted([]byte(dressed))
	if plain := escapes.ReplaceAll(got, nil); string(plain) != dressed {
		t.Errorf("the words are %q", plain)
	}
	for _, want := range []string{
		paintHead + "beat  frames  size" + paintEnd, paintFix + "Fix" + paintEnd + ", frames", paintLook + "Warning" + paintEnd + ": no",
		"25–28   " + paintBars + "████▊" + paintEnd + "\n",
	} {
		if !strings.Contains(string(got), want) {
			t.Errorf("%q is missing in %q", want, got)
		}
	}
	for _, line := range bytes.Split(got, []byte("\n")) {
		if list := escapes.FindAllString(string(line), -1); len(list)%2 == 1 || len(list) > 0 && list[len(list)-1] != paintEnd {
			t.Errorf("colour goes on after %q", line)
		}
	}
}

func TestProgressLog(t *testing.T) {
	var b bytes.Buffer
	start := time.Unix(0, 0)
	l := &progressLog{w: &b, what: "measuring", things: "frames", number: 4800, start: start, last: start}
	for s := 1; s <= 150; s++ {
		l.frame(int64(s)*20, start.Add(time.Duration(s)*time.Second))
	}
	want := "holdfast: measuring: 1200 of 4800 frames, 20.0 frames/s, 3m0s left\n" +
		"holdfast: measuring: 2400 of 4800 frames, 20.0 frames/s, 2m0s left\n"
	if b.String() != want {
		t.Errorf("said %q, want %q", b.String(), want)
	}
	b.Reset()
	l = &progressLog{w: &b, what: "measuring", things: "frames", start: start, last: start}
	if l.frame(90, start.Add(time.Minute)); b.String() != "holdfast: measuring: 90 frames, 1.5 frames/s\n" {
		t.Errorf("of unknown length: said %q", b.String())
	}
}
