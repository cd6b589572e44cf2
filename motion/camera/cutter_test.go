package camera

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// A picture here is nothing but its thumbnail, drawn at random; two of them are
// some 85 levels a channel apart.
func pictureNo(n int) Thumb {
	draw := rand.New(rand.NewPCG(uint64(n), 100))
	var t Thumb
	for i := range t {
		t[i] = 255 * draw.Float32()
	}
	return t
}

// mix is a picture between two others, as in a dissolve.
func mix(a, b Thumb, share float32) Thumb {
	for i := range a {
		a[i] = (1-share)*a[i] + share*b[i]
	}
	return a
}

// reel makes the changes of a clip given its pictures, frame by frame: what
// differs by over hardChange has changed everywhere. life is what changes from
// frame to frame anyway, levels.
func reel(life float64, pictures ...Thumb) []Change {
	out := []Change{{Thumb: pictures[0]}}
	for i := 1; i < len(pictures); i++ {
		c := Change{Thumb: pictures[i], Amount: life + pictures[i-1].Distance(&pictures[i])}
		if c.Amount >= hardChange {
			c.Hard, c.Seen, c.Spread = 0.9, 0.95, 1
		}
		out = append(out, c)
	}
	return out
}

func frames(n int, t Thumb) []Thumb { return slices.Repeat([]Thumb{t}, n) }

// cutsOf runs a reel through a Cutter and holds it to its promise about delay.
func cutsOf(t *testing.T, rate float64, changes []Change) []int {
	t.Helper()
	c := NewCutter(rate)
	var cuts []int
	for n, ch := range changes {
		if f, ok := c.Push(ch); ok {
			if n-f > c.Look() {
				t.Errorf("cut on %d told on frame %d, over %d frames later", f, n, c.Look())
			}
			cuts = append(cuts, f)
		}
	}
	return append(cuts, c.Flush()...)
}

func TestCutsOfReels(t *testing.T) {
	a, b, c, black, white := pictureNo(1), pictureNo(2), pictureNo(3), Thumb{}, Thumb{}
	for i := range white {
		white[i] = 250
	}
	// ramp goes from one picture to another in n steps, the last being to itself.
	ramp := func(from, to Thumb, n int) (out []Thumb) {
		for i := range n {
			out = append(out, mix(from, to, float32(i+1)/float32(n)))
		}
		return out
	}
	whip := func(n int) (out []Thumb) {
		for i := range n {
			out = append(out, pictureNo(50+i))
		}
		return out
	}
	for _, k := range []struct {
		name     string
		rate     float64
		pictures [][]Thumb
		want     []int
	}{
		{"one frame", 24, [][]Thumb{frames(1, a)}, nil},
		{"cut on frame 1", 24, [][]Thumb{frames(1, a), frames(30, b)}, []int{1}},
		{"cut on frame 1 of two", 24, [][]Thumb{frames(1, a), frames(1, b)}, []int{1}},
		{"cut on frame 2", 24, [][]Thumb{frames(2, a), frames(30, b)}, []int{2}},
		{"cut on the last frame", 24, [][]Thumb{frames(30, a), frames(1, b)}, []int{30}},
		{"cut on the last but one", 24, [][]Thumb{frames(30, a), frames(2, b)}, []int{30}},
		{"cut as far from the end as is looked ahead", 24, [][]Thumb{frames(30, a), frames(NewCutter(24).Look(), b)}, []int{30}},
		{"two shots of ten frames", 24, [][]Thumb{frames(10, a), frames(10, b)}, []int{10}},
		{"three shots of ten frames", 24, [][]Thumb{frames(10, a), frames(10, b), frames(10, c)}, []int{10, 20}},
		{"there and back in ten frames", 24, [][]Thumb{frames(10, a), frames(10, b), frames(10, a)}, []int{10, 20}},
		{"four frames between two others", 24, [][]Thumb{frames(20, a), frames(4, b), frames(20, c)}, []int{20, 24}},
		{"at 12", 12, [][]Thumb{frames(10, a), frames(10, b)}, []int{10}},
		{"at 60", 60, [][]Thumb{frames(40, a), frames(40, b)}, []int{40}},
		{"flash of one frame", 24, [][]Thumb{frames(20, a), frames(1, white), frames(20, a)}, nil},
		{"flash of two frames", 24, [][]Thumb{frames(20, a), frames(2, white), frames(20, a)}, nil},
		{"flash of three frames", 24, [][]Thumb{frames(20, a), frames(3, white), frames(20, a)}, nil},
		{"flash of a sixth of a second at 60", 60, [][]Thumb{frames(60, a), frames(10, white), frames(60, a)}, nil},
		{"flash right before a cut", 24, [][]Thumb{frames(20, a), frames(1, white), frames(10, a), frames(20, b)}, []int{31}},
		{"fade to black", 24, [][]Thumb{frames(20, a), ramp(a, black, 12), frames(10, black)}, nil},
		{"fade up", 24, [][]Thumb{frames(5, black), ramp(black, a, 12), frames(20, a)}, nil},
		{"dissolve", 24, [][]Thumb{frames(20, a), ramp(a, b, 10), frames(20, b)}, nil},
		{"whip", 24, [][]Thumb{frames(20, a), whip(6), frames(20, b)}, nil},
		{"cut to black and back", 24, [][]Thumb{frames(20, a), frames(24, black), frames(20, a)}, []int{20, 44}},
		{"cut through black", 24, [][]Thumb{frames(20, a), frames(12, black), frames(20, b)}, []int{20, 32}},
		{"never anything but black", 24, [][]Thumb{frames(40, black)}, nil},
	} {
		for _, life := range []float64{0, 3} {
			if got := cutsOf(t, k.rate, reel(life, slices.Concat(k.pictures...)...)); !slices.Equal(got, k.want) {
				t.Errorf("%s, life %g: cuts on %v, want %v", k.name, life, got, k.want)
			}
		}
	}
}

// A figure or a light that changes much of the picture is no cut; neither is
// a change all over a small part.
func TestWhatIsLessThanACut(t *testing.T) {
	for name, ch := range map[string]Change{
		"a third of the picture":       {Amount: 40, Hard: 0.33, Seen: 0.5, Spread: 0.9},
		"all there is in one corner":   {Amount: 40, Hard: 0.1, Seen: 1, Spread: 0.2},
		"nearly all, but only nearly":  {Amount: 40, Hard: 0.2, Seen: 0.7, Spread: 1},
		"much, as on the frame before": {Amount: 40, Hard: 0.9, Seen: 0.9, Spread: 1},
	} {
		changes := reel(1, slices.Concat(frames(20, pictureNo(1)), frames(20, pictureNo(2)))...)
		ch.Thumb = changes[20].Thumb
		changes[20] = ch
		if name == "much, as on the frame before" {
			changes[19].Amount = 25
		}
		if got := cutsOf(t, 24, changes); len(got) != 0 {
			t.Errorf("%s: cut on %v", name, got)
		}
	}
}

// Whatever comes in, cuts come out in order, once each, and never on frame 0.
func TestCutsAreInOrder(t *testing.T) {
	draw := rand.New(rand.NewPCG(8, 8))
	total := 0
	for range 60 {
		var pictures []Thumb
		for range 1 + draw.IntN(12) {
			pictures = append(pictures, frames(1+draw.IntN(14), pictureNo(draw.IntN(5)))...)
		}
		last := 0
		for _, f := range cutsOf(t, []float64{12, 24, 60}[draw.IntN(3)], reel(1, pictures...)) {
			if f <= last || f >= len(pictures) {
				t.Fatalf("cut on %d after %d of %d frames", f, last, len(pictures))
			}
			last = f
			total++
		}
	}
	if total == 0 {
		t.Error("no cut in all the reels: nothing was tried")
	}
}
