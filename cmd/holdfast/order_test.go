package main

import (
	"io"
	"strings"
	"testing"
)

func TestOptionsFirst(t *testing.T) {
	app := newApp(io.Discard, io.Discard)
	for _, c := range []struct{ typed, want string }{
		{"holdfast", "holdfast"},
		{"holdfast --version", "holdfast --version"},
		{"holdfast shet a.mp4", "holdfast shet a.mp4"},
		{"holdfast sheet a.mp4", "holdfast sheet -- a.mp4"},
		{"holdfast sheet a.mp4 --as csv", "holdfast sheet --as csv -- a.mp4"},
		{"holdfast sheet a.mp4 --as=csv --quiet", "holdfast sheet --as=csv --quiet -- a.mp4"},
		{"holdfast sheet --quiet a.mp4 --sound-offset -3 b.mp4", "holdfast sheet --quiet --sound-offset -3 -- a.mp4 b.mp4"},
		{"holdfast sheet a.mp4 --as", "holdfast sheet --as"},
		{"holdfast sheet --quiet -- --as csv", "holdfast sheet --quiet -- --as csv"},
		{"holdfast sheet a.mp4 --loud b.mp4", "holdfast sheet --loud -- a.mp4 b.mp4"},
	} {
		if got := strings.Join(optionsFirst(app, strings.Fields(c.typed)), " "); got != c.want {
			t.Errorf("%s: got %s, want %s", c.typed, got, c.want)
		}
	}
}
