package assemble

import (
	"image"
	"testing"

	"holdfast/motion/scene"
	"holdfast/sheet"
)

// TestStagingOfDrawnFigures: two figures come in over the sides drawn, walk up to each
// other, and go out again, within a frame; the gap shrinks and grows within three frames
// of where it does.
func TestStagingOfDrawnFigures(t *testing.T) {
	list, err := scene.Stagings(image.Pt(640, 360), 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, sc := range list {
		if sc.Name != "meet-and-part-0" && sc.Name != "driven-out-0" {
			continue
		}
		t.Run(sc.Name, func(t *testing.T) {
			s, truth := sheetOf(t, sc), sc.Truth()
			if len(s.Figures) != 2 || len(s.Approaches) != 2 || len(truth.Approaches) != 2 {
				t.Fatalf("figures %+v\napproaches %+v", s.Figures, s.Approaches)
			}
			// Figures are numbered as they come into sight.
			first := 0
			if truth.Figures[1].Start < truth.Figures[0].Start {
				first = 1
			}
			for i, f := range s.Figures {
				drawn := truth.Figures[(first+i)%2]
				checkPassage(t, f.Enters, drawn.Enters)
				checkPassage(t, f.Leaves, drawn.Leaves)
			}
			for i, a := range s.Approaches {
				want := truth.Approaches[i]
				near(t, "gap starts", a.Start-1, want.Start, 3)
				near(t, "gap ends", a.End-1, want.End, 3)
				if r := a.Change / want.Change; r < 0.9 || r > 1.1 {
					t.Errorf("gap changes by %.2f, want %.2f", a.Change, want.Change)
				}
				both := want.By[0] != 0 && want.By[1] != 0
				if (len(a.By) == 2) != both || !both && want.By[(first+a.By[0]-1)%2] == 0 {
					t.Errorf("%+v, want it by %v", a, want.By)
				}
			}
		})
	}
}

// checkPassage holds a passage to that drawn, whose frames count from 0.
func checkPassage(t *testing.T, got *sheet.Passage, want scene.Passage) {
	t.Helper()
	side := want.Side
	if side == "" {
		side = sheet.SideNone
	}
	if got == nil || got.Side != side {
		t.Errorf("%+v, want %+v", got, want)
		return
	}
	near(t, side+" start", got.Start-1, want.Start, 1)
	near(t, side+" end", got.End-1, want.End, 1)
}

func near(t *testing.T, what string, got, want, most int) {
	t.Helper()
	if got < want-most || got > want+most {
		t.Errorf("%s on %d, want %d within %d", what, got, want, most)
	}
}
