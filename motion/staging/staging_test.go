package staging

import (
	"fmt"
	"image"
	"math"
	"testing"

	"holdfast/motion/camera"
	"holdfast/motion/figure"
)

// stage is a still shot of 100 frames, 640 by 360.
func stage() *Shot {
	s := &Shot{End: 99, W: 640, H: 360, Rate: 24}
	for range 100 {
		s.Camera = append(s.Camera, camera.Step{Zoom: 1})
	}
	return s
}

// goes is a figure 60 wide and 150 high whose middle is where at says on each of some
// frames, as far as the picture shows it.
func goes(from, to int, at func(f float64) image.Point) Path {
	p := Path{Start: from, Height: 150}
	for f := from; f <= to; f++ {
		m := at(float64(f))
		b := figure.Box{X0: max(0, m.X-30), Y0: max(0, m.Y-75), X1: min(640, m.X+30), Y1: min(360, m.Y+75)}
		p.Boxes = append(p.Boxes, b)
	}
	return p
}

func TestPassages(t *testing.T) {
	across := func(x0, speed float64) func(float64) image.Point {
		return func(f float64) image.Point { return image.Pt(int(x0+speed*f), 230) }
	}
	for _, c := range []struct {
		name    string
		path    Path
		in, out string
	}{
		// Its right side is at 4f-120: 4.5 pixels in the picture, 3 % of 150, from frame 32
		// on; its left side leaves the rim of 4 after 46.
		{"walks in", goes(33, 99, across(-150, 4)), "left 32-46", "there 99-99"},
		// Its left side is at 210-4f, its right one at 270-4f.
		{"walks out", goes(0, 65, across(240, -4)), "there 0-0", "left 52-66"},
		{"stirs in mid-picture", goes(40, 99, across(200, 1)), "unknown", "there 99-99"},
		{"stops in mid-picture", goes(0, 60, across(200, 1)), "there 0-0", "unknown"},
		{"found a moment late", goes(5, 99, across(200, 1)), "there 0-0", "there 99-99"},
		{"stands at the edge, and stirs", goes(40, 99, func(f float64) image.Point { return image.Pt(20+int(f)%2, 230) }), "unknown", "there 99-99"},
		// At its pace it was out of the picture a second before: it has been there.
		{"drifts out of the edge's shade", goes(40, 99, func(f float64) image.Point { return image.Pt(int(f)-45, 230) }), "unknown", "there 99-99"},
		{"flickers at the edge", goes(40, 99, func(f float64) image.Point { return image.Pt(-20+int(f-40)+25*(int(f)%2), 230) }), "unknown", "there 99-99"},
		// Its foot is at 12f-125, its head at 12f-275.
		{"drops in from above", goes(12, 99, func(f float64) image.Point { return image.Pt(300, min(230, int(12*f)-200)) }), "top 11-23", "there 99-99"},
		// Its head is at 365-200 sin, 4.5 in from frame 12 on; its foot at 515-200 sin.
		{"leaps up from below", goes(13, 87, leap(200)), "bottom 12-33", "bottom 67-88"},
		{"looks in from below", goes(14, 86, leap(100)), "bottom 13-86", "bottom 14-87"},
	} {
		s := stage()
		if got := words(s.Enters(c.path)); got != c.in {
			t.Errorf("%s: enters %s, want %s", c.name, got, c.in)
		}
		if got := words(s.Leaves(c.path)); got != c.out {
			t.Errorf("%s: leaves %s, want %s", c.name, got, c.out)
		}
	}
}

// leap is the way of one who leaps so high from below the picture, off it from frame 10
// to 90.
func leap(high float64) func(f float64) image.Point {
	return func(f float64) image.Point { return image.Pt(300, 440-int(high*math.Sin(math.Pi*(f-10)/80))) }
}

// What never leaves its place is there all the time, wherever it is first seen to stir.
func TestRootedIsThere(t *testing.T) {
	p := goes(40, 60, func(float64) image.Point { return image.Pt(300, 230) })
	p.Rooted = true
	if in, out := words(stage().Enters(p)), words(stage().Leaves(p)); in != "there 0-0" || out != "there 99-99" {
		t.Errorf("enters %s, leaves %s", in, out)
	}
}

func words(p *Passage) string {
	switch {
	case p == nil:
		return "unknown"
	case p.There:
		return fmt.Sprintf("there %d-%d", p.Start, p.End)
	}
	return fmt.Sprintf("%v %d-%d", p.Side, p.Start, p.End)
}

// ramp goes from 0 to 1 between two frames.
func ramp(f, from, to float64) float64 { return max(0, min(1, (f-from)/(to-from))) }

func TestApproaches(t *testing.T) {
	at := func(x float64) image.Point { return image.Pt(int(x), 230) }
	still := func(x float64) func(float64) image.Point { return func(float64) image.Point { return at(x) } }
	for _, c := range []struct {
		name string
		a, b func(f float64) image.Point
		want []string
	}{
		// 300 pixels are two heights.
		{"one walks up", still(100), func(f float64) image.Point { return at(500 - 300*ramp(f, 20, 60)) }, []string{"20-60 -2.0 second"}},
		{"one backs away", func(f float64) image.Point { return at(400 - 300*ramp(f, 20, 60)) }, still(500), []string{"20-60 2.0 first"}},
		{"both meet and part", func(f float64) image.Point { return at(100 + 90*ramp(f, 10, 40) - 90*ramp(f, 60, 90)) },
			func(f float64) image.Point { return at(500 - 90*ramp(f, 10, 40) + 90*ramp(f, 60, 90)) }, []string{"10-40 -1.2 both", "60-90 1.2 both"}},
		{"they pass", func(f float64) image.Point { return at(100 + 4*f) }, func(f float64) image.Point { return at(500 - 4*f) }, []string{"0-50 -2.7 both", "50-99 2.6 both"}},
		{"one follows the other", func(f float64) image.Point { return at(50 + 4*f) }, func(f float64) image.Point { return at(200 + 4*f) }, nil},
		{"a shift of weight", still(100), func(f float64) image.Point { return at(300 + 15*ramp(f, 20, 30)) }, nil},
		{"pauses on the way", still(100), func(f float64) image.Point { return at(500 - 150*ramp(f, 10, 30) - 150*ramp(f, 36, 56)) }, []string{"10-56 -2.0 second"}},
		{"stops on the way", still(100), func(f float64) image.Point { return at(500 - 150*ramp(f, 10, 30) - 150*ramp(f, 60, 80)) }, []string{"10-30 -1.0 second", "60-80 -1.0 second"}},
		{"jumps up beside the other", still(100), func(f float64) image.Point { return image.Pt(300, 230-int(100*ramp(f, 20, 30))) }, nil},
	} {
		checkApproaches(t, c.name, stage().Approaches(goes(0, 99, c.a), goes(0, 99, c.b)), c.want)
	}
}

// Two that hold an arm out towards each other go nowhere, however far it reaches.
func TestAnArmIsNoApproach(t *testing.T) {
	a := goes(0, 99, func(float64) image.Point { return image.Pt(100, 230) })
	b := goes(0, 99, func(float64) image.Point { return image.Pt(500, 230) })
	for f := range a.Boxes {
		reach := int(60 * ramp(float64(f), 20, 32))
		a.Boxes[f].X1 += reach
		b.Boxes[f].X0 -= reach
	}
	if got := stage().Approaches(a, b); got != nil {
		t.Errorf("%+v", got)
	}
}

// Too little is seen of two that are in the picture together for less than a step.
func TestTooShortForAnApproach(t *testing.T) {
	at := func(f float64) image.Point { return image.Pt(int(500-20*f), 230) }
	if got := stage().Approaches(goes(0, 99, func(float64) image.Point { return image.Pt(100, 230) }), goes(0, 8, at)); got != nil {
		t.Errorf("%+v", got)
	}
}

// A camera that follows one figure leaves the other behind; it is the first that goes.
func TestCameraGoesNowhere(t *testing.T) {
	s := stage()
	pan := func(f float64) float64 { return 300 * ramp(f, 20, 60) }
	for f := range s.Camera {
		s.Camera[f].DX = pan(float64(f)) - pan(float64(f)-1)
	}
	a := goes(0, 99, func(float64) image.Point { return image.Pt(450, 230) })
	b := goes(0, 99, func(f float64) image.Point { return image.Pt(int(400-pan(f)), 230) })
	checkApproaches(t, "followed", s.Approaches(a, b), []string{"20-60 2.0 first"})
}

// The push of a camera brings nobody nearer to another.
func TestZoomIsNoApproach(t *testing.T) {
	s := stage()
	scale := func(f float64) float64 { return 1 - 0.5*ramp(f, 20, 60) }
	for f := range s.Camera {
		s.Camera[f].Zoom = scale(float64(f)) / scale(float64(f)-1)
	}
	at := func(x float64) func(float64) image.Point {
		return func(f float64) image.Point { return image.Pt(int(math.Round(319.5+(x-319.5)*scale(f))), 230) }
	}
	checkApproaches(t, "pulled", s.Approaches(goes(0, 99, at(100)), goes(0, 99, at(500))), nil)
}

// checkApproaches wants stretches within two frames of those in words, and their changes
// within a twentieth of a height.
func checkApproaches(t *testing.T, name string, got []Approach, want []string) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %+v, want %v", name, got, want)
		return
	}
	for i, g := range got {
		var start, end int
		var change float64
		var by string
		if _, err := fmt.Sscanf(want[i], "%d-%d %g %s", &start, &end, &change, &by); err != nil {
			t.Fatal(err)
		}
		if d := max(start-g.Start, g.Start-start, end-g.End, g.End-end); d > 2 || math.Abs(change-g.Change) > 0.05 || by != g.By {
			t.Errorf("%s: %+v, want %s", name, g, want[i])
		}
	}
}
