package batch

import "testing"

// Whatever is taken for a share is one of a whole number of parts.
func FuzzParseShare(f *testing.F) {
	for _, s := range []string{"1/1", "3/40", "0/4", "5/4", "-1/-1", "1/100001", "/", "1/2/3", "+1/2"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ParseShare(text)
		if err == nil && (s.Of < 1 || s.Of > mostShares || s.Index < 1 || s.Index > s.Of) {
			t.Errorf("%q is taken for %+v", text, s)
		}
	})
}
