package motion

import (
	"image"
	"math"
	"testing"

	"holdfast/motion/scene"
	"holdfast/motion/strip"
)

// lean is by how much the bar of a contact leans between two of its frames,
// columns: the lean along which its rows, pushed over each other, pile up
// highest. What only passes by piles up nowhere.
func lean(st *strip.Strip, c scene.Contact, from, to int) int {
	reach := int(0.15 * st.Height)
	best, most := 0, 0.0
	for by := -reach; by <= reach; by++ {
		piles := make([]float64, 2*reach+1)
		for _, r := range st.Rows {
			if r.Frame < from || r.Frame > to {
				continue
			}
			mid := st.Column(from, c.Path[from-c.Start].X, c.Path[from-c.Start].Y)
			at := mid + float64(by*(r.Frame-from))/float64(to-from) - float64(reach+r.X0)
			for i := range piles {
				if k := int(math.Round(at)) + i; k >= 0 && k < len(r.Cells) {
					piles[i] += float64(r.Cells[k].Cover)
				}
			}
		}
		height := 0.0
		for _, n := range piles {
			height += n * n
		}
		if height > most || height == most && by == 0 {
			best, most = by, height
		}
	}
	return best
}

// slip is the true lean between two frames of a contact, columns.
func slip(st *strip.Strip, c scene.Contact, from, to int) float64 {
	if !c.Slide {
		return 0
	}
	p, q := c.Path[from-c.Start], c.Path[to-c.Start]
	return st.Column(to, q.X, q.Y) - st.Column(from, p.X, p.Y)
}

// TestStripLeans holds the strip to the truth of drawn scenes: what stands makes
// an upright bar whatever the camera does, what slides one that leans by its slip.
func TestStripLeans(t *testing.T) {
	const (
		rolling = 0.03 // heights: what a sole leans by that comes down on its heel and leaves over its toe
		flat    = 0.01 // heights: two pixels, by which silhouettes are unsure
	)
	for _, c := range []struct {
		name           string
		tolerance      float64
		plants, slides int // at least
	}{
		{"walk-pan", rolling + flat, 4, 0}, {"slide-backwards", rolling, 0, 3}, {"slide-one-plant", rolling, 3, 1}, {"hops", flat, 3, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			sc := find(t, image.Pt(640, 360), c.name, "clean")
			r := measure(t, sc)
			if len(r.Strips) != 1 {
				t.Fatalf("%d strips", len(r.Strips))
			}
			st, plants, slides := r.Strips[0], 0, 0
			for _, k := range sc.Truth().Contacts {
				// Feet behind others are not whole, and brief stands all roll.
				n := k.End - k.Start
				if k.Foot != scene.Near || !k.Seen || n < 12 || k.Start == 0 {
					continue
				}
				from, to := k.Start+n/5, k.End-n/5
				got, want := float64(lean(st, k, from, to)), slip(st, k, from, to)
				if math.Abs(got-want) > c.tolerance*st.Height {
					t.Errorf("contact %d–%d leans by %.0f pixels, slips by %.1f", from, to, got, want)
				}
				if k.Slide {
					slides++
				} else {
					plants++
				}
			}
			if plants < c.plants || slides < c.slides {
				t.Errorf("only %d plants and %d slides to look at", plants, slides)
			}
			checkAir(t, st, sc.Truth().Flights)
		})
	}
}

// checkAir holds the band to be empty in the middle of a flight.
func checkAir(t *testing.T, st *strip.Strip, flights []scene.Flight) {
	t.Helper()
	for _, f := range flights {
		if f.RiseShare < 0.08 {
			continue // lower than feet that hang down
		}
		for _, r := range st.Rows {
			if r.Frame != (f.Start+f.End)/2 {
				continue
			}
			for i, c := range r.Cells {
				if c.Cover > 0 {
					t.Errorf("frame %d in the air, column %d: cover %d", r.Frame, r.X0+i, c.Cover)
				}
			}
		}
	}
}

// Where nothing stands there is no strip.
func TestNoStripWithoutContacts(t *testing.T) {
	r := measure(t, find(t, image.Pt(320, 180), "ball-drop", "clean"))
	if len(r.Contacts) > 0 || len(r.Strips) > 0 {
		t.Errorf("%d contacts, %d strips", len(r.Contacts), len(r.Strips))
	}
}
