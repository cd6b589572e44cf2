package scene

import (
	"image"
	"math"
	"testing"
)

var testSize = image.Pt(320, 180)

func catalogue(t testing.TB) []*Scene {
	t.Helper()
	list, err := Catalogue(testSize)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func named(t testing.TB, name string) *Scene {
	t.Helper()
	for _, s := range catalogue(t) {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("no scene %q", name)
	return nil
}

func mustNew(t testing.TB, s Spec) *Scene {
	t.Helper()
	sc, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// eachBody calls do with every legged figure of the catalogue.
func eachBody(t *testing.T, do func(name string, sh *shot, a *actor, b *body)) {
	for _, sc := range catalogue(t) {
		for _, sh := range sc.shots {
			for i := range sh.cast {
				if b, ok := sh.cast[i].performer.(*body); ok {
					do(sc.Name, sh, &sh.cast[i], b)
				}
			}
		}
	}
}

// A foot that stands is carried by its toe or by its heel, or by both; what
// carries it must not move at all unless a slip was asked for.
func TestStandingFeetStay(t *testing.T) {
	checked := 0
	eachBody(t, func(name string, sh *shot, a *actor, b *body) {
		if slips(b) {
			return
		}
		h := b.Build.Height
		heel := Point{-heelShare * b.Build.Foot * h, ankleShare * h}
		toe := Point{heel.X + b.Build.Foot*h, heel.Y}
		var before [2]struct{ heel, toe Point }
		var stood [2]int
		for f := 0.0; f < float64(sh.Frames); f += 0.25 {
			places := make([]affine, parts)
			b.place(f, false, places)
			for side, part := range []partName{nearFoot, farFoot} {
				s := b.footAt(side, b.pose(f, false), f)
				now := struct{ heel, toe Point }{places[part].at(heel), places[part].at(toe)}
				ground := b.Ground + (nearGround-2*nearGround*float64(side))*h
				if s.stands && math.Abs(math.Max(now.heel.Y, now.toe.Y)-ground) > 1e-6 {
					t.Fatalf("%s frame %g: lowest point of a standing foot at %g, ground at %g", name, f, math.Max(now.heel.Y, now.toe.Y), ground)
				}
				if s.stands && stood[side] == s.spot+1 {
					moved := math.Min(now.heel.sub(before[side].heel).norm(), now.toe.sub(before[side].toe).norm())
					if moved > 1e-6 {
						t.Fatalf("%s frame %g: standing foot moved by %g", name, f, moved)
					}
					checked++
				}
				before[side], stood[side] = now, 0
				if s.stands {
					stood[side] = s.spot + 1
				}
			}
		}
	})
	if checked < 10000 {
		t.Errorf("only %d quarter frames of standing feet were looked at", checked)
	}
}

func slips(b *body) bool {
	for _, path := range b.plan.feet {
		for _, s := range path {
			if len(s.slips) > 0 {
				return true
			}
		}
	}
	return false
}

// Thigh, shin and foot must hang together on every frame: a leg asked to reach
// farther than its length would tear off its foot.
func TestLegsReachTheirFeet(t *testing.T) {
	eachBody(t, func(name string, sh *shot, a *actor, b *body) {
		bone := b.Build.bone() * b.Build.Height
		for f := range sh.Frames {
			places := make([]affine, parts)
			a.placeAt(float64(f), places)
			for _, leg := range [][3]partName{{nearThigh, nearShin, nearFoot}, {farThigh, farShin, farFoot}} {
				knee := places[leg[0]].at(Point{0, bone}).sub(places[leg[1]].at(Point{})).norm()
				ankle := places[leg[1]].at(Point{0, bone}).sub(places[leg[2]].at(Point{})).norm()
				if knee > 1e-6 || ankle > 1e-6 {
					t.Fatalf("%s frame %d: knee open by %g, ankle by %g", name, f, knee, ankle)
				}
			}
		}
	})
}

// Nothing may jump: a planned path that breaks would make false peaks.
func TestFeetPathsAreContinuous(t *testing.T) {
	eachBody(t, func(name string, sh *shot, a *actor, b *body) {
		const dt = 1e-4
		at := func(f float64) []Point {
			places := make([]affine, parts)
			b.place(f, false, places)
			return []Point{places[nearFoot].at(Point{}), places[farFoot].at(Point{}), places[trunk].at(Point{})}
		}
		for f := 0.05; f < float64(sh.Frames); f += 0.05 {
			p, q := at(f-dt), at(f+dt)
			for i := range p {
				// A figure height a frame is faster than anything here moves.
				if d := p[i].sub(q[i]).norm(); d > 2*dt*b.Build.Height {
					t.Fatalf("%s near frame %g: point %d jumps by %g", name, f, i, d)
				}
			}
		}
	})
}

// A hop of t seconds rises g*t*t/8: half the time up from rest at the top.
// Values by hand for a figure of 1.7 m.
func TestHopRise(t *testing.T) {
	tests := []struct{ air, rate, rise float64 }{
		{12, 24, 0.180269}, // 0.5 s: 9.80665*0.25/8 = 0.306458 m
		{6, 24, 0.045067},  // 0.25 s: a quarter of that
		{15, 30, 0.180269},
		{60, 60, 0.721077}, // 1 s: 1.225831 m
	}
	for _, c := range tests {
		b, err := newBody(Figure{Hops: []Hop{{Takeoff: 20.3, Air: c.air}}}, c.rate)
		if err != nil {
			t.Fatal(err)
		}
		places := make([]affine, parts)
		low := func(f float64) float64 {
			b.place(f, false, places)
			return places[nearFoot].f / b.Build.Height
		}
		ground := low(0)
		if got := ground - low(20.3+c.air/2); math.Abs(got-c.rise) > 1e-6 {
			t.Errorf("air %g at %g: rise %.6f heights, want %.6f", c.air, c.rate, got, c.rise)
		}
		// Free fall: second difference is g in heights a frame squared.
		mid := 20.3 + c.air/2
		fall := low(mid+1) - 2*low(mid) + low(mid-1)
		if want := Gravity / 1.7 / (c.rate * c.rate); math.Abs(fall-want) > 1e-9 {
			t.Errorf("air %g at %g: acceleration %g, want %g", c.air, c.rate, fall, want)
		}
		if low(20.3) != ground || math.Abs(low(20.3+c.air)-ground) > 1e-12 {
			t.Errorf("air %g at %g: not on the ground at take-off and landing", c.air, c.rate)
		}
	}
}

// Speeds before and after each impact, by differences of heights alone.
func TestBallRestitution(t *testing.T) {
	for _, e := range []float64{0.5, 0.72, 0.9} {
		b := newBouncer(Ball{Drop: 180, Start: 5, Restitution: e, Gravity: 1.5, Bounces: 4}, 24)
		// sqrt(2*180/1.5) = 15.4919 frames of fall.
		if got := b.impacts[0]; math.Abs(got-20.491933) > 1e-5 {
			t.Fatalf("first impact at %.6f", got)
		}
		const dt = 1e-5
		for i, at := range b.impacts {
			if h := b.over(at); math.Abs(h) > 1e-9 {
				t.Errorf("impact %d at height %g", i, h)
			}
			if i == len(b.impacts)-1 {
				continue
			}
			down, up := b.over(at-dt)/dt, b.over(at+dt)/dt
			if got := up / down; math.Abs(got-e) > 1e-4 {
				t.Errorf("impact %d: speed ratio %.5f, want %g", i, got, e)
			}
			// The next top is e*e of the one before.
			top := b.over((at + b.impacts[i+1]) / 2)
			if want := 180 * math.Pow(e, 2*float64(i+1)); math.Abs(top-want) > 1e-6 {
				t.Errorf("top after impact %d: %.6f, want %.6f", i, top, want)
			}
		}
	}
}

func TestEases(t *testing.T) {
	for _, e := range []Ease{EaseInOut, Linear, EaseIn, EaseOut, Overshoot} {
		if e.at(0) > 1e-12 || e.at(0) < -1e-12 || math.Abs(e.at(1)-1) > 1e-12 {
			t.Errorf("ease %d goes from %g to %g", e, e.at(0), e.at(1))
		}
	}
	most := 0.0
	for u := 0.0; u <= 1; u += 0.001 {
		most = math.Max(most, Overshoot.at(u))
	}
	// The back curve with 1.70158 passes its end by a tenth.
	if math.Abs(most-1.1) > 0.001 {
		t.Errorf("overshoot reaches %g", most)
	}
	if EaseIn.at(0.5) >= 0.5 || EaseOut.at(0.5) <= 0.5 {
		t.Error("ease in must start slowly and ease out fast")
	}
}
