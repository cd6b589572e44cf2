package motion

import (
	"image"
	"math"
	"testing"

	"holdfast/motion/scene"
)

// Lean within three degrees of the geometry's, width and height within a twenty-fifth
// of the figure's height, contrast within 0.16; what comes back is told, and no more.
func TestPoses(t *testing.T) {
	list, err := scene.Posings(image.Pt(640, 360), 2)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range list {
		t.Run(p.Name, func(t *testing.T) { checkPoses(t, p) })
	}
}

func checkPoses(t *testing.T, d scene.Posing) {
	t.Helper()
	r := measure(t, d.Scene)
	f := d.Truth().Figures[0]
	if len(r.Poses) != len(d.Holds) {
		t.Fatalf("%d poses, want %d", len(r.Poses), len(d.Holds))
	}
	var before *scene.Outline
	for i, p := range r.Poses {
		b := r.Beats[p.Beat]
		at := (b.Start + b.End) / 2
		if at < d.Holds[i][0] || at > d.Holds[i][1] {
			t.Fatalf("pose %d is held on %d-%d, want %v", i, b.Start, b.End, d.Holds[i])
		}
		o, ok := d.Outline(d.Figure, at)
		if !ok {
			t.Fatalf("no figure on %d", at)
		}
		w, h := o.Size()
		tall := f.Height[at-f.Start]
		contrast := math.NaN() // there is none before the first
		if before != nil {
			contrast = o.Contrast(*before, 24)
		}
		before = &o
		near := func(what string, got, want, within float64) {
			if math.IsNaN(want) != math.IsNaN(got) || math.Abs(got-want) > within {
				t.Errorf("%d-%d: %s %.3f, want %.3f", b.Start, b.End, what, got, want)
			}
		}
		near("lean", p.Lean, o.Lean(), 3)
		near("width", p.Width, w/tall, 0.04)
		near("height", p.Height, h/tall, 0.04)
		near("contrast", p.Contrast, contrast, 0.16)
		back := -1
		if k := d.Back[i]; k >= 0 {
			back = r.Poses[k].Beat
		}
		if p.Back != back {
			t.Errorf("%d-%d: comes back to beat %d, want %d", b.Start, b.End, p.Back, back)
		}
	}
}

// A figure that never leaves its place is known only as far as it moves: it has no
// poses that would be wrong.
func TestNoPosesOfRootedFigures(t *testing.T) {
	if r := measure(t, find(t, image.Pt(640, 360), "acting", "clean")); len(r.Poses) > 0 {
		t.Errorf("%d poses", len(r.Poses))
	}
}
