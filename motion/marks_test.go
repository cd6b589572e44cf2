package motion

import (
	"context"
	"errors"
	"image"
	"testing"

	"holdfast/motion/feet"
	"holdfast/motion/figure"
	"holdfast/motion/scene"
)

func measureMarked(t *testing.T, sc *scene.Scene, m Marks) *Result {
	t.Helper()
	r, err := Measure(context.Background(), &drawn{scene: sc}, Options{Size: image.Pt(sc.Width, sc.Height), Rate: sc.Rate.Float(), Marks: m})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// onFoot is a mark in the middle of a true contact, a little above the sole.
func onFoot(c scene.Contact) feet.Mark {
	frame := (c.Start + c.End) / 2
	p := c.Path[frame-c.Start]
	return feet.Mark{Frame: frame, X: p.X, Y: p.Y - 3}
}

// Feet that stand all the time while the figure acts are told once they are
// shown, in a clip in which they are not found otherwise, in grain as well.
func TestMarkedFeetStand(t *testing.T) {
	for _, c := range []struct{ name, variant string }{
		{"two-figures", "clean"}, {"acting-small", "noise"}, {"acting-low-contrast", "clean"},
	} {
		sc := find(t, image.Pt(640, 360), c.name, c.variant)
		truth := sc.Truth()
		var m Marks
		for _, want := range truth.Contacts {
			m.Feet = append(m.Feet, onFoot(want))
		}
		r := measureMarked(t, sc, m)
		used := map[int]bool{}
		for _, want := range truth.Contacts {
			i := nearestContact(r.Contacts, want, used, truth.Figures[want.Figure].Height[0])
			if i < 0 {
				t.Errorf("%s, %s: the foot at %.0f is not told of", c.name, c.variant, want.X)
				continue
			}
			used[i] = true
			if got := r.Contacts[i]; got.Start-want.Start > 1 || want.End-got.End > 1 || got.Share > 0.02 || got.Share < -0.02 {
				t.Errorf("%s, %s: %d to %d slipping %.3f, want %d to %d", c.name, c.variant, got.Start, got.End, got.Share, want.Start, want.End)
			}
		}
		if len(r.Trails) != len(m.Feet) {
			t.Errorf("%s, %s: %d feet followed of %d", c.name, c.variant, len(r.Trails), len(m.Feet))
		}
	}
}

// One foot shown on one frame of a walk is followed through its steps.
func TestMarkedFootWalks(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "walk", "clean")
	truth := sc.Truth()
	var own []scene.Contact // of the foot that is shown
	for _, c := range truth.Contacts {
		if c.Foot == truth.Contacts[4].Foot && c.Start > 0 {
			own = append(own, c)
		}
	}
	r := measureMarked(t, sc, Marks{Feet: []feet.Mark{onFoot(truth.Contacts[4])}})
	found, close := 0, 0
	for _, want := range own {
		i := nearestContact(r.Contacts, want, nil, truth.Figures[0].Height[0])
		if i < 0 {
			continue
		}
		found++
		for _, d := range []int{r.Contacts[i].Start - want.Start, r.Contacts[i].End - want.End} {
			if d >= -1 && d <= 1 {
				close++
			}
		}
	}
	if found < len(own)-1 || close < 2*found-2 {
		t.Errorf("%d of %d plants found, %d of their ends within a frame", found, len(own), close)
	}
	if len(r.Trails) != 1 || r.Trails[0].Mark != 0 {
		t.Errorf("trails %+v", r.Trails)
	}
}

// Where the ground is shown, only what stands near it counts.
func TestGroundThatIsShown(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "walk", "clean")
	y := sc.Truth().Contacts[0].Y
	line := func(y0, y1 float64) Marks {
		return Marks{Ground: []GroundMark{{EveryShot, feet.Line{X0: 0, Y0: y0, X1: 640, Y1: y1}}}}
	}
	if n := len(measureMarked(t, sc, line(y, y)).Contacts); n < 10 {
		t.Errorf("%d contacts on the ground that is shown", n)
	}
	if n := len(measureMarked(t, sc, line(y-60, y-60)).Contacts); n != 0 {
		t.Errorf("%d contacts on ground that is shown in the air", n)
	}
	half := measureMarked(t, sc, line(y+150, y-150)).Contacts // crosses the ground at the middle
	for _, c := range half {
		if c.X < 260 || c.X > 380 {
			t.Errorf("a contact at %.0f, where the line lies %.0f px off", c.X, (c.X-320)*300/640)
		}
	}
	if len(half) == 0 {
		t.Error("no contact where the line crosses the ground")
	}
}

// A mark on another shot's frame says nothing of this one.
func TestGroundOfAnotherShot(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "cuts", "clean")
	want := measure(t, sc)
	second := want.Shots[1]
	got := measureMarked(t, sc, Marks{Ground: []GroundMark{{second.Start, feet.Line{X0: 0, Y0: 2, X1: 640, Y1: 2}}}})
	count := func(r *Result, shot int) (n int) {
		for _, c := range r.Contacts {
			if c.Shot == shot {
				n++
			}
		}
		return n
	}
	for shot := range want.Shots {
		if shot == 1 && count(got, shot) != 0 || shot != 1 && count(got, shot) != count(want, shot) {
			t.Errorf("shot %d: %d contacts, %d without the line", shot+1, count(got, shot), count(want, shot))
		}
	}
}

// Of two figures the one that is shown is measured.
func TestFigureThatIsShown(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "two-figures", "clean")
	truth := sc.Truth()
	for k, f := range truth.Figures {
		b := f.Box[20-f.Start]
		r := measureMarked(t, sc, Marks{Figures: []figure.Mark{{Frame: 20, Box: figure.Box{X0: int(b.X0) - 3, Y0: int(b.Y0) - 3, X1: int(b.X1) + 3, Y1: int(b.Y1) + 3}}}})
		if len(r.Figures) != 1 {
			t.Fatalf("%d figures, want the one that is shown", len(r.Figures))
		}
		got := r.Figures[0]
		if got.HeightPx < 0.85*f.Height[20] || got.HeightPx > 1.15*f.Height[20] {
			t.Errorf("figure %d is %.0f px high, want %.0f", k+1, got.HeightPx, f.Height[20])
		}
	}
}

// A box on bare ground is said to hold nothing.
func TestBoxThatHoldsNothing(t *testing.T) {
	sc := find(t, image.Pt(320, 180), "walk", "clean")
	r := measureMarked(t, sc, Marks{Figures: []figure.Mark{{Frame: 3, Box: figure.Box{X0: 290, Y0: 4, X1: 300, Y1: 12}}}})
	if len(r.Figures) != 0 || len(r.Warnings) != 1 || r.Warnings[0] != nothingShown {
		t.Errorf("%d figures, warnings %q", len(r.Figures), r.Warnings)
	}
}

func TestMarksBeyondTheClip(t *testing.T) {
	sc := find(t, image.Pt(320, 180), "acting", "clean")
	for _, m := range []Marks{
		{Feet: []feet.Mark{{Frame: sc.Frames, X: 5, Y: 5}}},
		{Figures: []figure.Mark{{Frame: sc.Frames, Box: figure.Box{X1: 9, Y1: 9}}}},
		{Ground: []GroundMark{{Frame: sc.Frames, Line: feet.Line{X1: 1}}}},
	} {
		_, err := Measure(context.Background(), &drawn{scene: sc}, Options{Size: image.Pt(320, 180), Rate: 24, Marks: m})
		var beyond *MarkError
		if !errors.As(err, &beyond) || beyond.Frame != sc.Frames || beyond.Frames != sc.Frames {
			t.Errorf("%+v: %v", m, err)
		}
	}
}
