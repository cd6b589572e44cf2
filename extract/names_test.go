package extract

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestSafeName(t *testing.T) {
	for in, want := range map[string]string{
		"/a/b/clip.mp4":     "clip.mp4",
		"new\nline.mp4":     `new\x0aline.mp4`,
		"esc\x1b[31m.mp4":   `esc\x1b[31m.mp4`,
		"c1\u009b.mp4":      `c1\x9b.mp4`,
		"bad\xff.mp4":       `bad\xff.mp4`,
		"rtl\u202egpj.mp4":  `rtl\u202egpj.mp4`,
		"wide\u200bname":    `wide\u200bname`,
		"ünï日本.mp4":         "ünï日本.mp4",
		"line\u2028sep.mp4": `line\u2028sep.mp4`,
	} {
		if got := SafeName(in); got != want {
			t.Errorf("SafeName(%q) = %q, want %q", in, got, want)
		}
	}
}

func FuzzSafeName(f *testing.F) {
	f.Add("a\x00b\u202e\xfe")
	f.Fuzz(func(t *testing.T, s string) {
		got := SafeName(s)
		if !utf8.ValidString(got) || strings.ContainsFunc(got, unsafeRune) {
			t.Fatalf("SafeName(%q) = %q", s, got)
		}
	})
}
