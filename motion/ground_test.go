package motion

import (
	"image"
	"math"
	"testing"

	"holdfast/motion/scene"
)

// Nearly all contacts of drawn clips are found within two frames of
// the truth, most within one, and nothing that is not there.
func TestContactsOfDrawnWalks(t *testing.T) {
	for _, name := range []string{"walk", "slide-one-plant", "slide", "acting"} {
		sc := find(t, image.Pt(640, 360), name, "clean")
		truth, got := sc.Truth(), measure(t, sc)
		edges, close, found := 0, 0, 0
		used := map[int]bool{}
		for _, want := range truth.Contacts {
			i := nearestContact(got.Contacts, want, used, truth.Figures[want.Figure].Height[0])
			if i < 0 {
				t.Logf("%s: %d to %d at %.0f is missed", name, want.Start, want.End, want.X)
				continue
			}
			used[i] = true
			found++
			c := got.Contacts[i]
			for _, d := range []int{c.Start - want.Start, c.End - want.End} {
				edges++
				if d >= -1 && d <= 1 {
					close++
				}
			}
			if d := math.Abs(c.Share - want.SlipShare); d > 0.02 {
				t.Errorf("%s: %d to %d slips %.3f of the height, want %.3f", name, want.Start, want.End, c.Share, want.SlipShare)
			}
		}
		if n := len(truth.Contacts); float64(found) < 0.85*float64(n) || len(got.Contacts) > n+1 {
			t.Errorf("%s: %d of %d contacts found, %d in all", name, found, n, len(got.Contacts))
		}
		if float64(close) < 0.8*float64(edges) {
			t.Errorf("%s: %d of %d starts and ends within a frame", name, close, edges)
		}
	}
}

// nearestContact is the index of the found contact that shares most frames with
// a true one, at the same place; -1 for none.
func nearestContact(list []Contact, want scene.Contact, used map[int]bool, height float64) int {
	best, most := -1, 0
	for i, c := range list {
		shared := min(c.End, want.End) - max(c.Start, want.Start) + 1
		if !used[i] && shared > most && math.Abs(c.X-want.X) < 0.12*height && math.Abs(c.Y-want.Y) < 0.1*height {
			best, most = i, shared
		}
	}
	return best
}

func TestFlightsOfHops(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "hops", "clean")
	truth, got := sc.Truth(), measure(t, sc)
	if len(got.Flights) != len(truth.Flights) {
		t.Fatalf("flights %+v, want %d", got.Flights, len(truth.Flights))
	}
	for i, want := range truth.Flights {
		f := got.Flights[i]
		if math.Abs(float64(f.Start-want.Start)) > 1 || math.Abs(float64(f.End-want.End)) > 1 {
			t.Errorf("flight %d to %d, want %d to %d", f.Start, f.End, want.Start, want.End)
		}
		if math.Abs(f.Rise-want.RisePx) > 0.1*want.RisePx {
			t.Errorf("flight from %d rises %.1f px, want %.1f", f.Start, f.Rise, want.RisePx)
		}
	}
}

func TestImpactsOfBall(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "ball-across", "clean")
	truth, got := sc.Truth(), measure(t, sc)
	if len(got.Contacts) > 0 {
		t.Errorf("a ball has contacts: %+v", got.Contacts)
	}
	if len(got.Impacts) != len(truth.Impacts) {
		t.Fatalf("impacts %+v, want %d", got.Impacts, len(truth.Impacts))
	}
	for i, want := range truth.Impacts {
		im := got.Impacts[i]
		if math.Abs(im.Frame-want.Frame) > 0.5 {
			t.Errorf("impact at %.2f, want %.2f", im.Frame, want.Frame)
		}
		if want.Restitution > 0 && math.Abs(im.Restitution-want.Restitution) > 0.03 {
			t.Errorf("impact at %.2f: restitution %.3f, want %.3f", im.Frame, im.Restitution, want.Restitution)
		}
	}
}

// What shows no feet has nothing that stands.
func TestNoFeetNoContacts(t *testing.T) {
	for _, name := range []string{"walk-feet-out-of-frame", "ball-soft"} {
		got := measure(t, find(t, image.Pt(640, 360), name, "clean"))
		if len(got.Contacts) > 0 || len(got.Flights) > 0 {
			t.Errorf("%s: contacts %+v, flights %+v", name, got.Contacts, got.Flights)
		}
	}
}

// Feet below the picture are told as such from where the figure comes in to
// where it is gone, and only for a figure that the rim cuts off.
func TestFeetOutOfFrame(t *testing.T) {
	sc := find(t, image.Pt(640, 360), "walk-feet-out-of-frame", "clean")
	got := measure(t, sc)
	told := 0
	for _, o := range got.Outside {
		told += o.End - o.Start + 1
	}
	if n := sc.Truth().Frames; float64(told) < 0.9*float64(n) {
		t.Errorf("feet are out of the picture in all of %d frames, told in %d: %+v", n, told, got.Outside)
	}
	if got := measure(t, find(t, image.Pt(640, 360), "walk", "clean")); len(got.Outside) > 0 {
		t.Errorf("walk: told out of the picture in %+v", got.Outside)
	}
}
