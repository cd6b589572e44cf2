package scene

import (
	"image"
	"strings"
	"testing"
)

func TestCatalogue(t *testing.T) {
	seen := map[string]bool{}
	for _, sc := range catalogue(t) {
		if seen[sc.Name] {
			t.Errorf("two scenes are called %s", sc.Name)
		}
		seen[sc.Name] = true
		if sc.Frames < 48 || sc.Frames > 240 {
			t.Errorf("%s has %d frames", sc.Name, sc.Frames)
		}
		truth := sc.Truth()
		if truth.Frames != sc.Frames || len(truth.Camera) != sc.Frames || len(truth.Figures) == 0 {
			t.Errorf("%s: truth of %d frames, %d camera steps, %d figures", sc.Name, truth.Frames, len(truth.Camera), len(truth.Figures))
		}
		next := 0
		for _, s := range truth.Shots {
			if s.Start != next || s.End < s.Start {
				t.Errorf("%s: shots %+v do not tile", sc.Name, truth.Shots)
			}
			next = s.End + 1
		}
		if next != sc.Frames {
			t.Errorf("%s: shots end at %d of %d", sc.Name, next, sc.Frames)
		}
		for _, c := range truth.Contacts {
			if s := max(c.SlipShare, -c.SlipShare); s > 0.02 && s < 0.04 {
				t.Errorf("%s: a contact slips by %g, where eyes disagree", sc.Name, s)
			}
		}
	}
	if len(seen) < 16 {
		t.Errorf("only %d scenes", len(seen))
	}
}

// The look of a figure must not change what is true of it.
func TestTruthDoesNotDependOnLooks(t *testing.T) {
	a, b := named(t, "acting").Truth(), named(t, "acting-low-contrast").Truth()
	for i, m := range a.Figures[0].Max {
		if m != b.Figures[0].Max[i] {
			t.Fatalf("frame %d: travel %g and %g", i, m, b.Figures[0].Max[i])
		}
	}
}

// The truth scales with the picture: the same clip at twice the size.
func TestTruthScalesWithSize(t *testing.T) {
	big, err := Catalogue(image.Pt(640, 360))
	if err != nil {
		t.Fatal(err)
	}
	for i, sc := range catalogue(t) {
		if i%5 != 0 {
			continue
		}
		a, b := sc.Truth(), big[i].Truth()
		for k, ft := range a.Figures {
			if len(ft.Beats) != len(b.Figures[k].Beats) {
				t.Errorf("%s: %d beats, at twice the size %d", sc.Name, len(ft.Beats), len(b.Figures[k].Beats))
			}
			if d := 2*ft.Height[0] - b.Figures[k].Height[0]; d > 1e-9 || d < -1e-9 {
				t.Errorf("%s: heights %g and %g", sc.Name, ft.Height[0], b.Figures[k].Height[0])
			}
		}
	}
}

// What a newcomer sees first shows all that it promises.
func TestDemo(t *testing.T) {
	sc, err := Demo()
	if err != nil {
		t.Fatal(err)
	}
	seconds := float64(sc.Frames) / sc.Rate.Float()
	truth := sc.Truth()
	if sc.Width != 960 || sc.Height != 540 || seconds < 8 || seconds > 10.6 || len(truth.Cuts) != 1 {
		t.Fatalf("%dx%d, %.1f s, cuts %v", sc.Width, sc.Height, seconds, truth.Cuts)
	}
	holds, moving, slides, twos := 0, 0, 0, false
	for _, ft := range truth.Figures {
		for _, b := range ft.Beats {
			if b.Hold && b.Moving {
				moving++
			} else if b.Hold {
				holds++
			}
		}
		for _, e := range ft.Exposure {
			twos = twos || e.Pattern == "twos"
		}
	}
	for _, c := range truth.Contacts {
		if c.Slide {
			slides++
		}
	}
	if holds < 5 || moving < 1 || slides != 2 || !twos || len(truth.Flights) != 2 || len(truth.Contacts) < 10 {
		t.Errorf("%d frozen and %d moving holds, %d slides, twos %v, %d flights, %d contacts", holds, moving, slides, twos, len(truth.Flights), len(truth.Contacts))
	}
}

func TestNewRefuses(t *testing.T) {
	ok := Shot{Frames: 10}
	tests := []struct {
		name string
		spec Spec
		says string
	}{
		{"odd size", Spec{Width: 641, Height: 360, Shots: []Shot{ok}}, "even"},
		{"no shots", Spec{Width: 640, Height: 360}, "no shots"},
		{"no frames", Spec{Width: 640, Height: 360, Shots: []Shot{{}}}, "0 frames"},
		{"negative rate", Spec{Width: 640, Height: 360, Rate: Rate{-24, 1}, Shots: []Shot{ok}}, "rate"},
		{"conform", Spec{Width: 640, Height: 360, Conform: Conform{5, 4}, Shots: []Shot{ok}}, "conform"},
		{"first shot joined", Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 9, Join: Join{Dissolve, 3}}}}, "join"},
		{"camera move", Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 9, Camera: Camera{Moves: []CameraMove{{From: 4, To: 4}}}}}}, "camera move"},
		{"keys out of order", Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 9, Figures: []Figure{{Keys: []Key{{From: 5}, {From: 2}}}}}}}, "key at frame 2"},
		{"hop during a walk", Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 90, Figures: []Figure{{Walks: []Walk{{Start: 5, Steps: 4}}, Hops: []Hop{{Takeoff: 20, Air: 8}}}}}}}, "begins before"},
		{"ball", Spec{Width: 640, Height: 360, Shots: []Shot{{Frames: 9, Balls: []Ball{{Restitution: 1}}}}}, "restitution"},
	}
	for _, c := range tests {
		if _, err := New(c.spec); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: error %v", c.name, err)
		}
	}
}

func benchmarkDraw(b *testing.B, name string, size image.Point) {
	list, err := Catalogue(size)
	if err != nil {
		b.Fatal(err)
	}
	for _, sc := range list {
		if sc.Name != name {
			continue
		}
		dst := sc.NewFrame()
		if err := sc.Draw(dst, 0); err != nil {
			b.Fatal(err)
		}
		b.ResetTimer()
		for i := range b.N {
			if err := sc.Draw(dst, i%sc.Frames); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkDrawStill360(b *testing.B)  { benchmarkDraw(b, "acting", image.Pt(640, 360)) }
func BenchmarkDrawMixed360(b *testing.B)  { benchmarkDraw(b, "camera-mixed", image.Pt(640, 360)) }
func BenchmarkDrawMixed1080(b *testing.B) { benchmarkDraw(b, "camera-mixed", image.Pt(1920, 1080)) }
