package assemble

import (
	"context"
	"image"
	"io"
	"strings"
	"testing"

	"holdfast/extract"
	"holdfast/motion"
	"holdfast/motion/scene"
	"holdfast/sheet"
)

// reel is a motion.Source that draws a scene.
type reel struct {
	*scene.Scene
	next int
}

func (r *reel) Next(dst *image.YCbCr) error {
	if r.next >= r.Frames {
		return io.EOF
	}
	r.next++
	return r.Draw(dst, r.next-1)
}

func sheetOf(t *testing.T, sc *scene.Scene) *sheet.Sheet {
	t.Helper()
	size := image.Pt(sc.Width, sc.Height)
	result, err := motion.Measure(context.Background(), &reel{Scene: sc}, motion.Options{Size: size, Rate: sc.Rate.Float()})
	if err != nil {
		t.Fatal(err)
	}
	m := New(extract.Clip{Name: sc.Name, Width: size.X, Height: size.Y, Work: size, Rate: extract.Rate{Num: 24, Den: 1}}, result)
	m.First, m.SHA256 = 1, strings.Repeat("0", 64)
	s := m.Sheet()
	if err := s.Check(); err != nil {
		t.Fatal(err)
	}
	return s
}

// TestReactionsOfDrawnFigures: the second figure answers each move of the first
// after the frames that were drawn by lot, within one, and the first never answers.
func TestReactionsOfDrawnFigures(t *testing.T) {
	list, err := scene.Reactions(image.Pt(640, 360), 3)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range list {
		t.Run(r.Name, func(t *testing.T) {
			s := sheetOf(t, r.Scene)
			if len(s.Reactions) != len(r.Delays) {
				t.Fatalf("reactions %+v, want delays of %v", s.Reactions, r.Delays)
			}
			for i, found := range s.Reactions {
				if d := found.FromMove - r.Delays[i]; d < -1 || d > 1 || found.Figure == found.To || found.Figure != s.Reactions[0].Figure {
					t.Errorf("%+v, want %d frames within one", found, r.Delays[i])
				}
			}
		})
	}
}
