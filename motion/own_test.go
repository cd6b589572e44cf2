package motion

import (
	"image"
	"slices"
	"testing"

	"holdfast/motion/beats"
	"holdfast/motion/scene"
)

// TestOwnBeatsOfALoneFigure: where there is but one figure, what it does by itself
// is what the picture does.
func TestOwnBeatsOfALoneFigure(t *testing.T) {
	for _, c := range []struct{ name, variant string }{
		{"acting", "clean"}, {"acting", "handheld"}, {"twos", "clean"}, {"moving-holds", "clean"},
	} {
		t.Run(c.name+"/"+c.variant, func(t *testing.T) {
			r := measure(t, find(t, image.Pt(320, 180), c.name, c.variant))
			if len(r.Figures) != 1 || r.Figures[0].Own == nil {
				t.Fatalf("%d figures, want one that is known by itself", len(r.Figures))
			}
			var whole []beats.Beat
			for _, b := range r.Beats {
				whole = append(whole, b.Beat)
			}
			sameBeats(t, r.Figures[0].Own.Beats, whole, 1)
		})
	}
}

// sameBeats wants the same kinds in the same order, with starts and ends
// within a frame and peaks within so many.
func sameBeats(t *testing.T, got, want []beats.Beat, peak int) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("beats %+v, want %+v", got, want)
	}
	near := func(a, b, most int) bool { return max(a-b, b-a) <= most }
	for i := range got {
		g, w := got[i], want[i]
		if g.Kind != w.Kind || !near(g.Start, w.Start, 1) || !near(g.End, w.End, 1) || !near(g.Peak, w.Peak, peak) {
			t.Errorf("%s %d–%d, peak %d; want %s %d–%d, peak %d", g.Kind, g.Start, g.End, g.Peak, w.Kind, w.Start, w.End, w.Peak)
		}
	}
}

// TestOwnBeatsOfTwo holds what each of two figures does to its own truth.
func TestOwnBeatsOfTwo(t *testing.T) {
	for _, c := range []struct {
		variant string
		peak    int // frames that a peak may be off
	}{
		{"clean", 1}, {"flicker", 1},
		{"handheld", 2}, // a move that sets in at its fastest is lost by flow for its first frames
	} {
		t.Run(c.variant, func(t *testing.T) {
			sc := find(t, image.Pt(640, 360), "two-figures", c.variant)
			r := measure(t, sc)
			for _, truth := range sc.Truth().Figures {
				f := figureAt(r, truth)
				if f == nil || f.Own == nil {
					t.Fatalf("%s is not found by itself", truth.Name)
				}
				sameBeats(t, f.Own.Beats, drawnBeats(truth, f.Own.Beats), c.peak)
			}
		})
	}
}

// figureAt is the figure whose box covers that of the drawn one best on the first
// frame of both; nil where none does.
func figureAt(r *Result, truth scene.FigureTruth) *Figure {
	var best *Figure
	most := 0.0
	for i := range r.Figures {
		f := &r.Figures[i]
		t := max(f.Start, truth.Start)
		if t > min(f.End, truth.End) {
			continue
		}
		a, b := f.Boxes[t-f.Start], truth.Box[t-truth.Start]
		if wide := min(float64(a.X1), b.X1) - max(float64(a.X0), b.X0); wide > most {
			best, most = f, wide
		}
	}
	return best
}

// drawnBeats are a figure's own. Of peaks that tie, the one that was found is as
// true as the first.
func drawnBeats(truth scene.FigureTruth, found []beats.Beat) []beats.Beat {
	var list []beats.Beat
	for i, b := range truth.Beats {
		beat := beats.Beat{Kind: beats.Move, Start: b.Start, End: b.End, Peak: b.Peak}
		if b.Hold {
			beat.Kind, beat.Peak = beats.Hold, 0
		} else if i < len(found) && slices.Contains(b.Ties, found[i].Peak) {
			beat.Peak = found[i].Peak
		}
		list = append(list, beat)
	}
	return list
}
