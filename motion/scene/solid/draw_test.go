package solid

import (
	"bytes"
	"image"
	"testing"

	"holdfast/motion/scene"
)

func draw(t *testing.T, sc *Scene, frame int) *image.YCbCr {
	t.Helper()
	p := sc.NewFrame()
	if err := sc.Draw(p, frame); err != nil {
		t.Fatal(err)
	}
	return p
}

// A frame depends on its number alone, not on what was drawn before.
func TestDrawOrder(t *testing.T) {
	for _, v := range []scene.Variant{{}, {Name: "hard", Condition: scene.Condition{Noise: 3, Shutter: 0.5}, Shake: scene.Shake{Reach: 4, Seed: 1}}} {
		change := func(s *Spec) { s.World.Reflection = 0.3 }
		a, err := strides(t, Figure{}, change).With(v)
		if err != nil {
			t.Fatal(err)
		}
		b, err := strides(t, Figure{}, change).With(v)
		if err != nil {
			t.Fatal(err)
		}
		draw(t, a, 3)
		draw(t, a, 50)
		p, q := draw(t, a, 20), draw(t, b, 20)
		if !bytes.Equal(p.Y, q.Y) || !bytes.Equal(p.Cb, q.Cb) || !bytes.Equal(p.Cr, q.Cr) {
			t.Errorf("%q: frame 20 differs after others", v.Name)
		}
	}
}

// The lowest row that the figure covers is that of the sole the truth gives,
// to a pixel: looking level, the underside of a standing foot is its edge.
func TestSolesAreWhereTheTruthSays(t *testing.T) {
	sc := strides(t, Figure{}, func(s *Spec) {
		s.Width, s.Height, s.World = 640, 360, World{Bare: true}
		s.Camera = from(Vec{Y: 0.05, Z: 5}, Vec{Y: 0.85})
	})
	empty := strides(t, Figure{At: Vec{X: 50}}, func(s *Spec) {
		s.Width, s.Height, s.World = 640, 360, World{Bare: true}
		s.Camera = from(Vec{Y: 0.05, Z: 5}, Vec{Y: 0.85})
	})
	tr := sc.Feet()
	for _, frame := range []int{14, 20, 34, 60} {
		p, q := draw(t, sc, frame), draw(t, empty, frame)
		lowest := 0
		for y := range 360 {
			for x := range 640 {
				if d := int(p.Y[y*p.YStride+x]) - int(q.Y[y*q.YStride+x]); d > 12 || d < -12 {
					lowest = y
				}
			}
		}
		want := 0.0
		for _, f := range tr.Feet {
			k := frame - tr.Figures[0].Start
			want = max(want, f.Heel[k].Y, f.Toe[k].Y)
		}
		if !near(float64(lowest)+0.5, want, 1.5) {
			t.Errorf("frame %d: the figure reaches down to row %d, its soles to %g", frame, lowest, want)
		}
	}
}

func TestDrawRefuses(t *testing.T) {
	sc := strides(t, Figure{}, nil)
	if err := sc.Draw(sc.NewFrame(), sc.Frames); err == nil {
		t.Error("a frame past the end")
	}
	if err := sc.Draw(image.NewYCbCr(image.Rect(0, 0, 64, 64), image.YCbCrSubsampleRatio420), 0); err == nil {
		t.Error("a picture of another size")
	}
	for _, s := range []Spec{
		{Width: 3, Height: 4, Figures: []Figure{{}}},
		{Width: 4, Height: 4},
		{Width: 4, Height: 4, Figures: []Figure{{Start: 99}}},
		{Width: 4, Height: 4, Figures: []Figure{{}}, Rate: scene.Rate{Num: 1}},
		{Width: 4, Height: 4, Figures: []Figure{{}}, Camera: Camera{Moves: []Move{{From: 1, To: 1}}}},
	} {
		if _, err := New(s, strider); err == nil {
			t.Errorf("%+v is taken", s)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	for _, follow := range []bool{false, true} {
		s := Spec{Name: "strides", Width: 640, Height: 360, Camera: sideways(), World: shaded(), Figures: []Figure{{}}}
		s.Camera.Follow = follow
		sc, err := New(s, strider)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(sc.spec.Camera.kind(), func(b *testing.B) {
			p := sc.NewFrame()
			for i := range b.N {
				if err := sc.Draw(p, i%sc.Frames); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
