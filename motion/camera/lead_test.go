package camera

import (
	"math"
	"math/rand/v2"
	"testing"

	"holdfast/motion/flow"
)

// TestLead shifts a world farther than flow can see: the lead is within one
// cell, of four pixels here, and none is given for what flow sees by itself or
// where there is nothing to see.
func TestLead(t *testing.T) {
	figure := world(func(x, y float64) float64 { return 90 + 8*float64(int(x/9)%3) })
	for _, c := range []struct {
		name       string
		world      world
		dx, dy     float64
		gain, bias float64
		far        bool
	}{
		{"still", ripples, 0, 0, 1, 0, false},
		{"slow", ripples, 3, -2, 1, 0, false},
		{"right", ripples, 90, 0, 1, 0, true},
		{"left", ripples, -121, 7, 1, 0, true},
		{"down", ripples, 5, 45, 1, 0, true},
		{"darker", ripples, -70, -20, 0.7, 9, true},
		{"figure", world(ripples).with(-60, -90, 45, 90, figure), 75, 0, 1, 0, true},
		{"blank", blank, 80, 0, 1, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Similarity{A: 1, TX: c.dx, TY: c.dy}
			lead, far := new(Seeker).Lead(view(t, c.world, 2, 1), view(t, c.world.seen(s, c.gain, c.bias), 2, 2))
			if far != c.far {
				t.Fatalf("lead of %v is far: %v, want %v", lead, far, c.far)
			}
			if far {
				near(t, "lead across", float64(lead.X), c.dx, 4)
				near(t, "lead down", float64(lead.Y), c.dy, 4)
			}
		})
	}
}

// A lead leaves flow the room it needs, however small the picture is.
func TestLeadLeavesRoom(t *testing.T) {
	for n := 1; n < 700; n++ {
		c := coarse{side: max(1, n/leadWidth)}
		cells := n / c.side
		if r := c.reach(cells, leadAcross); r > 0 && (cells-r)*c.side < flow.MinSide {
			t.Errorf("of %d pixels a lead of %d cells leaves %d", n, r, (cells-r)*c.side)
		}
	}
}

// mosaic is a world of squares of a dozen pixels with a random tone each.
func mosaic(x, y float64) float64 {
	i, j := uint64(int(math.Floor(x/12))+1000), uint64(int(math.Floor(y/12))+1000)
	return 40 + 170*rand.New(rand.NewPCG(i, j)).Float64()
}

// Where plain flow fails a led fit mends it; between two pictures with nothing
// in common there is no lead.
func TestLedFit(t *testing.T) {
	want := Similarity{A: 1, TX: -108, TY: 6}
	other := world(func(x, y float64) float64 { return mosaic(x+4000, y-2000) })
	for _, c := range []struct {
		name  string
		to    world
		mends bool
	}{{"whip", world(mosaic).seen(want, 1, 0), true}, {"cut", other, false}} {
		t.Run(c.name, func(t *testing.T) {
			from, to := view(t, mosaic, 1, 1), view(t, c.to, 1, 2)
			d, err := flow.NewDIS(flow.Fast)
			if err != nil {
				t.Fatal(err)
			}
			defer d.Close()
			var plain, led flow.Field
			if err := d.Calc(&plain, from.Gray(), to.Gray()); err != nil {
				t.Fatal(err)
			}
			e := NewEstimator(viewW, viewH)
			doubtful := e.Fit(from, to, &plain)
			if !doubtful.Doubtful() {
				t.Fatalf("plain flow is followed by %d of %d points: it proves nothing", doubtful.Inliers, doubtful.Points)
			}
			lead, ok := new(Seeker).Lead(from, to)
			if ok != c.mends {
				t.Fatalf("a lead of %v is one: %v", lead, ok)
			}
			if !ok {
				return
			}
			if err := d.CalcLed(&led, from.Gray(), to.Gray(), lead); err != nil {
				t.Fatal(err)
			}
			fit := e.Fit(from, to, &led)
			if fit.Mends(doubtful) != c.mends {
				t.Fatalf("led flow is followed by %d of %d points, plain flow by %d of %d: mends is %v", fit.Inliers, fit.Points, doubtful.Inliers, doubtful.Points, !c.mends)
			}
			if c.mends {
				near(t, "across", fit.Motion.TX, want.TX, 0.1)
				near(t, "down", fit.Motion.TY, want.TY, 0.1)
			}
		})
	}
}

// TestBarsLeadNowhere: the bars of a wide picture agree along any shift, and
// between them the two pictures have nothing in common.
func TestBarsLeadNowhere(t *testing.T) {
	barred := func(content func(x, y float64) float64) world {
		return func(x, y float64) float64 {
			if int(math.Abs(y))%viewH < viewH/4 {
				return 16
			}
			return 150 + content(x, y)/4
		}
	}
	other := func(x, y float64) float64 { return mosaic(x+4000, y-2000) }
	if lead, ok := new(Seeker).Lead(view(t, barred(mosaic), 1, 1), view(t, barred(other), 1, 2)); ok {
		t.Errorf("two pictures between bars are led by %v", lead)
	}
}
