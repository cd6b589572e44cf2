package compare

import (
	"image"
	"testing"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// TestCourse compares clips with themselves, their beats measured so badly that
// hardly any agrees: the curves say that they are one and that nothing differs.
// Strangers with such beats stay strangers.
func TestCourse(t *testing.T) {
	pairs, err := scene.RandomPairs(8, 6, image.Pt(320, 180))
	if err != nil {
		t.Fatal(err)
	}
	var whole []*sheet.Sheet
	for i, p := range pairs {
		if i == 0 || p.Reference.Name != pairs[i-1].Reference.Name {
			whole = append(whole, trueSheet(p.Reference))
		}
	}
	for i, a := range whole {
		for j, b := range whole {
			c := New(a, badBeats(b), sheet.Tool{})
			if c.Related != (i == j) {
				t.Errorf("%s and %s: likeness %.2f, related %v", a.Clip.Name, b.Clip.Name, c.Likeness, c.Related)
			}
			if i == j && (c.Offset != 0 || c.Speed != 1 || len(c.Differences) > 0) {
				t.Errorf("%s: speed %.2f, offset %d, %v", a.Clip.Name, c.Speed, c.Offset, c.Summary)
			}
		}
	}
}

// badBeats returns a sheet with the same curve and beats of a third of a second
// that have nothing to do with it.
func badBeats(s *sheet.Sheet) *sheet.Sheet {
	bad := *s
	bad.Beats = nil
	const length = 8
	for at := s.Clip.FirstFrame; at <= s.Clip.Last(); at += length {
		end := min(at+length-1, s.Clip.Last())
		if len(bad.Beats)%2 == 0 {
			bad.Beats = append(bad.Beats, sheet.NewHold(1, 0, at, end, sheet.HoldFrozen))
		} else {
			bad.Beats = append(bad.Beats, sheet.NewMove(1, 0, at, end, at, 1))
		}
	}
	bad.Complete()
	return &bad
}
