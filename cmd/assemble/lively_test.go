package assemble

import (
	"image"
	"testing"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// TestLivelyOfADrawnFigure: it turns lively or quiet on the frames drawn by lot, within
// three, by turns and never else.
func TestLivelyOfADrawnFigure(t *testing.T) {
	list, err := scene.Turnings(image.Pt(320, 180), 2)
	if err != nil {
		t.Fatal(err)
	}
	for n, r := range list {
		t.Run(r.Name, func(t *testing.T) {
			s := sheetOf(t, r.Scene)
			if len(s.Lively) != len(r.Changes)+1 {
				t.Fatalf("%+v, want changes on %v, counted from 0", s.Lively, r.Changes)
			}
			for i, l := range s.Lively {
				want := sheet.Quiet
				if (n+i)%2 == 0 {
					want = sheet.LivelyWord
				}
				if l.Word != want || l.Figure != 0 {
					t.Errorf("stretch %d: %+v, want it %s", i, l, want)
				}
				if i > 0 {
					if d := l.Start - 1 - r.Changes[i-1]; d < -3 || d > 3 || l.Start != s.Lively[i-1].End+1 {
						t.Errorf("stretch %d: %+v, want it from %d within 3", i, l, r.Changes[i-1]+1)
					}
				}
			}
		})
	}
}
