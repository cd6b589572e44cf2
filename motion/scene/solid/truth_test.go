package solid

import (
	"fmt"
	"math"
	"testing"

	"holdfast/motion/scene"
	"holdfast/motion/scene/capture"
)

// strider walks along x at a metre a second, half a second on each foot in
// turns of one second: the left foot stands from 0.5 to 1.2, the right one from
// 1.1 to 1.9 and from 2.3 on; between 1.9 and 2.3 none does.
func strider(string) (*capture.Recording, error) {
	r := &capture.Recording{Rate: 100, Stands: []capture.Stand{
		{Side: capture.Left, From: 0.5, To: 1.2, Whole: [2]bool{true, true}, Doubt: 0.01},
		{Side: capture.Right, From: 1.1, To: 1.9, Whole: [2]bool{true, true}, Doubt: 0.01},
		{Side: capture.Right, From: 2.3, To: 3, Whole: [2]bool{true, false}, Doubt: 0.01},
	}}
	for i := range 301 {
		s := float64(i) / 100
		var p capture.Pose
		lift := 0.0
		if s > 1.9 && s < 2.3 {
			lift = capture.Height * (s - 1.9) * (2.3 - s) // 4 % of the height at most
		}
		p[capture.Pelvis], p[capture.Neck], p[capture.Crown] = xyz(s, 0.9+lift, 0), xyz(s, 1.45+lift, 0), xyz(s, 1.7+lift, 0)
		for side, x := range []float64{0.5 + max(0, s-1.2), 1.1 + min(0.4, max(0, s-1.9))} {
			z := 0.2*float64(side) - 0.1
			foot := xyz(x, lift, z)
			if side == capture.Left && s > 1.2 {
				foot.Y = 0.05 + lift
			}
			on := func(j capture.Joint, at Vec) { p[j.On(side)] = at }
			on(capture.Hip, xyz(s, 0.9+lift, z))
			on(capture.Ankle, foot.Add(xyz(0.05, 0.07, 0)))
			on(capture.Knee, p[capture.Hip.On(side)].Toward(p[capture.Ankle.On(side)], 0.5).Add(Vec{X: 0.1}))
			on(capture.Heel, foot)
			on(capture.Ball, foot.Add(Vec{X: 0.18}))
			on(capture.Toe, foot.Add(Vec{X: 0.24}))
			on(capture.Shoulder, xyz(s, 1.4+lift, 2*z))
			on(capture.Elbow, xyz(s, 1.1+lift, 2*z))
			on(capture.Hand, xyz(s, 0.85+lift, 2*z))
		}
		r.Poses = append(r.Poses, p)
	}
	return r, nil
}

func strides(t *testing.T, f Figure, change func(*Spec)) *Scene {
	t.Helper()
	s := Spec{Name: "strides", Width: 320, Height: 180, Seconds: 2.9, Camera: sideways(), World: shaded(), Figures: []Figure{f}}
	if change != nil {
		change(&s)
	}
	sc, err := New(s, strider)
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// Frames on which feet stand follow from the recording's instants at any rate.
func TestContacts(t *testing.T) {
	for _, c := range []struct {
		rate  int64
		start float64
		want  string
	}{
		{10, 0, "L 5-12, R 11-19, R 23-29"},
		{20, 0, "L 10-24, R 22-38, R 46-58"},
		{20, 1, "L 0-4, R 2-18, R 26-38"},
	} {
		sc := strides(t, Figure{Start: c.start}, func(s *Spec) { s.Rate, s.Seconds = scene.FPS(c.rate), 2.91-c.start })
		tr := sc.Feet()
		got := ""
		for i, k := range tr.Contacts {
			if got != "" {
				got += ", "
			}
			got += fmt.Sprintf("%s %d-%d", []string{"L", "R"}[tr.Stands[i].Side], k.Start, k.End)
		}
		if got != c.want {
			t.Errorf("at %d a second from %g: %s, want %s", c.rate, c.start, got, c.want)
		}
		if len(tr.Flights) != 1 {
			t.Fatalf("flights %v", tr.Flights)
		}
		f := tr.Flights[0]
		if rate := float64(c.rate); !near(f.Takeoff, (1.9-c.start)*rate, 1e-9) || !near(f.Land, (2.3-c.start)*rate, 1e-9) {
			t.Errorf("in the air from %g to %g", f.Takeoff, f.Land)
		}
		// 0.2 s up and down by the formula: 1.7*0.2*0.2 m.
		if a := tr.Airs[0]; !near(a.LowestRise, 0.068, 1e-3) || !near(a.CentreRise, 0.068, 5e-3) {
			t.Errorf("rises %+v", a)
		}
		if !near(f.RiseShare, 0.04, 0.003) {
			t.Errorf("rises %g of its height", f.RiseShare)
		}
	}
}

// A foot that stands is seen on one spot by a camera that stands.
func TestPlantedFootStandsStill(t *testing.T) {
	for _, turn := range []float64{0, 40, 90, 180} {
		tr := strides(t, Figure{Turn: turn}, nil).Feet()
		for i, c := range tr.Contacts {
			foot := tr.Feet[tr.Stands[i].Side]
			for f := c.Start; f <= c.End; f++ {
				k, first := f-tr.Figures[0].Start, c.Start-tr.Figures[0].Start
				if d := math.Hypot(foot.Heel[k].X-foot.Heel[first].X, foot.Heel[k].Y-foot.Heel[first].Y); d > 1e-6 || !foot.Down[k] {
					t.Fatalf("turned %g: the heel of contact %d goes %g pixels by frame %d, down %v", turn, i, d, f, foot.Down[k])
				}
			}
			if c.SlipPx != 0 || c.Slide {
				t.Errorf("turned %g: contact %d slips %g pixels", turn, i, c.SlipPx)
			}
		}
	}
}

// With travel scaled by k a foot slips by k-1 times the way that the root goes
// meanwhile, here a metre a second.
func TestSlip(t *testing.T) {
	for _, k := range []float64{0.8, 1.25, 1.5} {
		for _, turn := range []float64{0, 60} {
			tr := strides(t, Figure{Travel: k, Turn: turn}, nil).Feet()
			for i, c := range tr.Contacts {
				s := tr.Stands[i]
				want := (k - 1) * float64(c.End-c.Start) / 24
				sin, cos := math.Sincos(turn * math.Pi / 180)
				if s.Slip.Sub(Vec{X: want * cos, Z: want * sin}).Norm() > 1e-9 || !near(s.SlipShare, math.Abs(want)/1.7, 1e-9) {
					t.Errorf("travel %g turned %g: contact %d slips %v, want %g metres", k, turn, i, s.Slip, want)
				}
				foot := tr.Feet[s.Side]
				first := tr.Figures[0].Start
				seen := foot.Heel[c.End-first].X - foot.Heel[c.Start-first].X
				if turn == 0 && !near(c.SlipPx, seen, 0.03*math.Abs(seen)+0.05) {
					t.Errorf("travel %g: contact %d slips %g pixels, its heel goes %g", k, i, c.SlipPx, seen)
				}
				if want := math.Abs(c.SlipShare) >= scene.SlideShare; c.Slide != want {
					t.Errorf("slip of %g heights: slide %v", c.SlipShare, c.Slide)
				}
			}
		}
	}
}

// Only the one stand slides, and only while it is alone.
func TestOnePlant(t *testing.T) {
	tr := strides(t, Figure{Travel: 1.5, Plant: 2}, nil).Feet()
	for i, want := range []float64{0, 0.5 * (1.9 - 1.2), 0} {
		if got := tr.Stands[i].Slip.X; !near(got, want, 0.5*1.1/24) || i != 1 && got != 0 {
			t.Errorf("contact %d slips %g metres, want %g", i, got, want)
		}
	}
}

// A hand that hangs down to 5 cm over the ground, its radius being 4, touches it
// there and then; nothing else does.
func TestRests(t *testing.T) {
	kneel := func(name string) (*capture.Recording, error) {
		r, err := strider(name)
		for i := range r.Poses {
			hand := &r.Poses[i][capture.Hand.On(capture.Right)]
			if i >= 100 && i <= 150 {
				hand.Y = 0.05
			}
		}
		return r, err
	}
	sc, err := New(Spec{Name: "kneel", Width: 320, Height: 180, Seconds: 2.9, Camera: sideways(), World: shaded(), Figures: []Figure{{}}}, kneel)
	if err != nil {
		t.Fatal(err)
	}
	list := sc.Feet().Rests
	if len(list) != 1 || list[0].Joint != capture.Hand.On(capture.Right) || list[0].Start != 24 || list[0].End != 36 || len(list[0].Path) != 13 {
		t.Fatalf("rests %+v", list)
	}
	at := sc.cast[0].pose(1.25)[capture.Hand.On(capture.Right)]
	at.Y = 0
	v := sc.viewOf(30)
	if want, _ := v.project(at); list[0].Path[6] != want {
		t.Errorf("touches at %v, want %v", list[0].Path[6], want)
	}
}

// On twos the frames of a contact are those whose drawing shows it.
func TestOnTwos(t *testing.T) {
	sc := strides(t, Figure{}, nil)
	twos, err := sc.With(scene.Variant{Name: "twos", On: 2})
	if err != nil {
		t.Fatal(err)
	}
	tr := twos.Truth()
	for i, c := range tr.Contacts {
		if c.Start%2 != 0 || c.End%2 != 1 && c.End != tr.Frames-1 {
			t.Errorf("contact %d on frames %d to %d", i, c.Start, c.End)
		}
	}
	f := tr.Figures[0]
	for k := 1; k < len(f.Max); k++ {
		if moves := f.Max[k] > 0; moves != ((f.Start+k)%2 == 0) {
			t.Fatalf("frame %d: travel %g", f.Start+k, f.Max[k])
		}
	}
	if f.Exposure[0].Pattern != "twos" || twos.Name != "strides/twos" {
		t.Errorf("%s: %+v", twos.Name, f.Exposure)
	}
}

func xyz(x, y, z float64) Vec { return Vec{X: x, Y: y, Z: z} }
