package extract

import (
	"errors"
	"strings"
	"testing"
)

func TestSniff(t *testing.T) {
	long := strings.Repeat("word ", sniffLength)[:sniffLength-1] + "\xe6" // a rune cut off
	for _, c := range []struct {
		head  string
		kind  InputKind // "" when accepted
		force string
	}{
		{"just words\n", Text, ""},
		{long, Text, ""},
		{"#EXTM3U\n#EXTINF:1\nx.ts\n", Playlist, ""},
		{"\ufeff#EXTM3U\n", Playlist, ""},
		{"ffconcat version 1.0\nfile x\n", Playlist, ""},
		{"<?xml version=\"1.0\"?><MPD></MPD>", Playlist, ""},
		{"<svg xmlns=\"x\"/>", Playlist, ""},
		{"\x76\x2f\x31\x01\x02\x00\x00\x00", Unsupported, ""},
		{"II*\x00\x08\x00\x00\x00", Unsupported, ""},
		{"ID3\x04\x00\x00", NoVideo, ""},
		{"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR", "", "png_pipe"},
		{"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR\x00acTL", "", "apng"},
		{"\xff\xd8\xff\xe0\x00\x10JFIF", "", "jpeg_pipe"},
		{"\x00\x00\x00\x20ftypisom", "", ""},
		{"YUV4MPEG2 W2 H2 F24:1\nFRAME\n", "", ""},
	} {
		s, err := sniff("x.mp4", []byte(c.head))
		var in *InputError
		if c.kind == "" {
			if err != nil || s.force != c.force {
				t.Errorf("%.12q: %+v, %v", c.head, s, err)
			}
		} else if !errors.As(err, &in) || in.Kind != c.kind {
			t.Errorf("%.12q: %v, want %s", c.head, err, c.kind)
		}
	}
}

func TestCountBoxes(t *testing.T) {
	one := "\x00\x00\x00\x08ftyp\x00\x00\x00\x0cmoovabcd"
	for data, want := range map[string]int{
		one: 1, one + one: 2, "\x00\x00\x00\x08ftyp": 0, "\x00\x00\x00\x01ftyp\xff\xff\xff\xff\xff\xff\xff\xff": 0,
		"\x00\x00\x00\x00moov": 1, "": 0,
	} {
		if got := countBoxes(strings.NewReader(data), "moov"); got != want {
			t.Errorf("%q: %d, want %d", data, got, want)
		}
	}
}
