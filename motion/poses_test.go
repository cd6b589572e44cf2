package motion

import (
	"image"
	"math"
	"testing"

	"holdfast/motion/scene"
)

// outline is a silhouette from geometry, pixel by pixel.
type outline struct {
	w, h int
	on   []bool
}

func outlineOf(t *testing.T, sc *scene.Scene, figure string, frame int) outline {
	t.Helper()
	cover, ok := sc.Cover(figure, frame)
	if !ok {
		t.Fatalf("%s: no figure %q on frame %d", sc.Name, figure, frame)
	}
	o := outline{sc.Width, sc.Height, make([]bool, sc.Width*sc.Height)}
	for i := range o.on {
		o.on[i] = cover(scene.Point{X: float64(i%o.w) + 0.5, Y: float64(i/o.w) + 0.5})
	}
	return o
}

// trueLean is half the angle of the second moments (Hu 1962), degrees to the right
// from upright, with the box of the outline.
func (o outline) trueLean() (lean, width, height float64) {
	var n, sx, sy, sxx, syy, sxy float64
	box := image.Rectangle{}
	for i, on := range o.on {
		if x, y := float64(i%o.w), float64(i/o.w); on {
			n, sx, sy, sxx, syy, sxy = n+1, sx+x, sy+y, sxx+x*x, syy+y*y, sxy+x*y
			box = box.Union(image.Rect(i%o.w, i/o.w, i%o.w+1, i/o.w+1))
		}
	}
	a, b, c := sxx/n-sx*sx/n/n, syy/n-sy*sy/n/n, sxy/n-sx*sy/n/n
	// The direction of the larger eigenvalue.
	l := (a+b)/2 + math.Sqrt((a-b)*(a-b)/4+c*c)
	x, y := c, l-a
	if y > 0 {
		x, y = -x, -y
	}
	return math.Atan2(x, -y) * 180 / math.Pi, float64(box.Dx()), float64(box.Dy())
}

// trueContrast is one minus intersection over union, the best of shifts around those
// that lay the boxes' corners on each other.
func trueContrast(a, b outline, reach int) float64 {
	best := 0.0
	for dy := -reach; dy <= reach; dy += 2 {
		for dx := -reach; dx <= reach; dx += 2 {
			both, any := 0, 0
			for i, on := range a.on {
				x, y := i%a.w+dx, i/a.w+dy
				other := x >= 0 && y >= 0 && x < b.w && y < b.h && b.on[y*b.w+x]
				if on && other {
					both++
				}
				if on || other {
					any++
				}
			}
			best = math.Max(best, float64(both)/float64(any))
		}
	}
	return 1 - best
}

// posing is a figure that walks on, strikes four poses, of which the last is the first
// once more, and walks off.
func posing(t *testing.T, style scene.Style, pan float64, noise float64) *scene.Scene {
	t.Helper()
	easy := scene.Pose{Near: scene.Arm{Shoulder: 6, Elbow: 12}, Far: scene.Arm{Shoulder: 4, Elbow: 10}}
	wide := scene.Pose{Near: scene.Arm{Shoulder: -70}, Far: scene.Arm{Shoulder: 85, Elbow: 5}, Lean: -4}
	bow := scene.Pose{Near: scene.Arm{Shoulder: -34, Elbow: 30}, Far: scene.Arm{Shoulder: 24, Elbow: 60}, Lean: 34, Tilt: 16, Crouch: 0.05, Shift: -0.03}
	f := scene.Figure{Name: "poser", Build: scene.Build{Height: 200}, Ground: 118, X: -170,
		Walks: []scene.Walk{{Start: 6, Steps: 4, Length: 0.36, Frames: 11}, {Start: 158, Steps: 4, Length: 0.36, Frames: 11}},
		Keys: []scene.Key{
			{From: 0, To: 76, Pose: easy}, {From: 84, To: 98, Pose: wide}, {From: 108, To: 122, Pose: bow},
			{From: 132, To: 210, Pose: easy},
		}}
	sh := scene.Shot{Frames: 206, Backdrop: scene.Backdrop{Style: style, Seed: 12}, Figures: []scene.Figure{f}}
	if pan != 0 {
		sh.Camera = scene.Camera{X: -pan / 2, Moves: []scene.CameraMove{{From: 0, To: 205, DX: pan, Ease: scene.Linear}}}
	}
	sc, err := scene.New(scene.Spec{Name: "posing", Width: 640, Height: 360, Shots: []scene.Shot{sh}, Condition: scene.Condition{Noise: noise}})
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// Lean within three degrees of the geometry's, width and height within a twenty-fifth
// of the figure's height, contrast within 0.16; what comes back is told, and no more.
func TestPoses(t *testing.T) {
	checkPoses(t, posing(t, scene.Preview, 0, 0))
	checkPoses(t, posing(t, scene.Flat, 60, 3))
}

func checkPoses(t *testing.T, sc *scene.Scene) {
	t.Helper()
	r := measure(t, sc)
	f := sc.Truth().Figures[0]
	if len(r.Poses) != 4 {
		t.Fatalf("%d poses, want 4", len(r.Poses))
	}
	var before *outline
	for i, p := range r.Poses {
		b := r.Beats[p.Beat]
		at := (b.Start + b.End) / 2
		o := outlineOf(t, sc, f.Name, at)
		lean, w, h := o.trueLean()
		tall := f.Height[at-f.Start]
		contrast, back := math.NaN(), -1 // there is none before the first
		if before != nil {
			contrast = trueContrast(o, *before, 24)
		}
		if i == 3 {
			back = r.Poses[0].Beat
		}
		before = &o
		near := func(what string, got, want, within float64) {
			t.Logf("%d-%d: %s %.3f, want %.3f", b.Start, b.End, what, got, want)
			if math.IsNaN(want) != math.IsNaN(got) || math.Abs(got-want) > within {
				t.Errorf("%d-%d: %s %.3f, want %.3f", b.Start, b.End, what, got, want)
			}
		}
		near("lean", p.Lean, lean, 3)
		near("width", p.Width, w/tall, 0.04)
		near("height", p.Height, h/tall, 0.04)
		near("contrast", p.Contrast, contrast, 0.16)
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
