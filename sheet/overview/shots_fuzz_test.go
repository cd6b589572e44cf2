package overview

import (
	"strings"
	"testing"
)

// Whatever names a shot is a part of the clip's own name, and a pass is a number.
func FuzzParsePattern(f *testing.F) {
	f.Add("{shot}_v{pass}", "sq010_sh020_v003.mov")
	f.Add("pass{pass}/{shot}", "pass2/walk.[1001-1096].png")
	f.Add("{pass}{shot}", "12")
	f.Add("{shot}.{pass}", `a\E.ref.mp4`)
	f.Fuzz(func(t *testing.T, pattern, clip string) {
		p, err := ParsePattern(pattern)
		if err != nil {
			return
		}
		name := NameOf(clip)
		shot, pass, ref, ok := p.split(name)
		if !strings.Contains(name, shot) || pass < 0 || ref && (pass != 0 || !ok) {
			t.Errorf("%q reads %q as shot %q, pass %d, reference %v, %v", pattern, clip, shot, pass, ref, ok)
		}
	})
}
