package extract

import (
	"bytes"
	"errors"
	"testing"
)

// Whatever a file begins with, it is judged or refused in our words, and what
// is text never gets by.
func FuzzSniff(f *testing.F) {
	for _, seed := range []string{
		"", "x", "#EXTM3U\n", "\xef\xbb\xbfffconcat version 1.0\n", "YUV4MPEG2 W16 H16\n", "\x00\x00\x00\x08moov", "\x00\x00\x00\x01mdat\xff\xff\xff\xff\xff\xff\xff\xff",
		"\x89PNG\r\n\x1a\nacTL", "RIFF\x00\x00\x00\x00WEBPANIM", "RIFF\x00\x00\x00\x00AVI ", "BM", "\x1a\x45\xdf\xa3", "ID3", "II*\x00",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, head []byte) {
		s, err := sniff("/x", head[:min(len(head), sniffLength)])
		var in *InputError
		if err != nil && !errors.As(err, &in) {
			t.Fatalf("%v is not in our words", err)
		}
		if err == nil && isText(head) && len(head) < sniffLength && !bytes.HasPrefix(head, []byte("YUV4MPEG2 ")) {
			t.Fatal("text passes for a clip")
		}
		if n := countBoxes(bytes.NewReader(head), "moov"); n < 0 || n > maxBoxes || n > len(head)/8 {
			t.Fatalf("%d boxes in %d bytes, %+v", n, len(head), s)
		}
	})
}
