package motion

import (
	"context"
	"image"
	"math"
	"testing"

	"holdfast/motion/beats"
	"holdfast/motion/parts"
	"holdfast/motion/scene"
)

// markOf is a mark on a part of a drawn figure.
func markOf(t *testing.T, sc *scene.Scene, figure, part string, frame int) parts.Mark {
	t.Helper()
	b, ok := sc.MarkBox(figure, part, frame)
	if !ok {
		t.Fatalf("%s has no %s of %s", sc.Name, part, figure)
	}
	return parts.Mark{Name: part, Frame: frame, Box: parts.Box{X: b.X0, Y: b.Y0, W: b.X1 - b.X0, H: b.Y1 - b.Y0}}
}

// follow measures a scene with marks on one part and returns that part.
func follow(t *testing.T, sc *scene.Scene, marks ...parts.Mark) *Part {
	t.Helper()
	result := followAll(t, sc, marks...)
	if len(result.Parts) != 1 || len(result.Parts[0].Steps) != sc.Frames {
		t.Fatalf("%d parts", len(result.Parts))
	}
	return &result.Parts[0]
}

func followAll(t *testing.T, sc *scene.Scene, marks ...parts.Mark) *Result {
	t.Helper()
	result, err := Measure(context.Background(), &drawn{scene: sc}, Options{
		Size: image.Pt(sc.Width, sc.Height), Rate: sc.Rate.Float(), Marks: Marks{Parts: marks},
	})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

// A part is where it is said to be, and is followed on most frames: a head that bows
// and turns back, and a hand of seventeen pixels that is raised, waved and let down
// by its own length a frame, shown in each of its poses.
func TestFollowParts(t *testing.T) {
	full := image.Pt(640, 360)
	for _, c := range []struct {
		scene, variant, figure, part string
		marks                        []int
		seen, within                 float64 // share of the frames; pixels
		holds                        [][2]int
	}{
		{"acting", "noise", "lamplighter", "head", []int{60}, 1, 8, [][2]int{{0, 20}, {30, 48}, {56, 70}, {80, 96}, {104, 119}}},
		{"one-arm", "clean", "waver", "near hand", []int{0, 30, 50, 62, 90}, 0.85, 16, [][2]int{{0, 16}, {26, 40}, {45, 54}, {59, 68}, {80, 95}}},
	} {
		sc := find(t, full, c.scene, c.variant)
		var marks []parts.Mark
		for _, n := range c.marks {
			marks = append(marks, markOf(t, sc, c.figure, c.part, n))
		}
		p := follow(t, sc, marks...)
		seen := 0
		for i, s := range p.Steps {
			if !s.Seen() {
				continue
			}
			seen++
			b, _ := sc.PartBox(c.figure, c.part, i)
			if d := math.Hypot(s.Box.X+s.Box.W/2-(b.X0+b.X1)/2, s.Box.Y+s.Box.H/2-(b.Y0+b.Y1)/2); d > c.within {
				t.Errorf("%s/%s, %s, frame %d: %+v is off by %.1f", c.scene, c.variant, c.part, i, s.Box, d)
			}
		}
		if share := float64(seen) / float64(sc.Frames); share < c.seen {
			t.Errorf("%s/%s, %s: seen on %.0f %% of the frames", c.scene, c.variant, c.part, 100*share)
		}
		sameHoldsOf(t, p, c.holds)
	}
}

// sameHoldsOf holds the holds of a part to those of its keys, two frames to either
// side: the ends of an ease go under the still limit.
func sameHoldsOf(t *testing.T, p *Part, want [][2]int) {
	t.Helper()
	var got [][2]int
	for _, b := range p.Beats {
		if b.Kind == beats.Hold {
			got = append(got, [2]int{b.Start, b.End})
		}
	}
	same := len(got) == len(want)
	for i := 0; same && i < len(got); i++ {
		same = max(got[i][0]-want[i][0], want[i][0]-got[i][0], got[i][1]-want[i][1], want[i][1]-got[i][1]) <= 2
	}
	if !same {
		t.Errorf("%s: holds %v, want %v", p.Name, got, want)
	}
}
