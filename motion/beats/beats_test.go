package beats

import (
	"math/rand/v2"
	"testing"
)

// steps makes a series from runs of (frames, travel).
func steps(runs ...[2]float64) Series {
	var s Series
	for _, r := range runs {
		for range int(r[0]) {
			s.Max, s.Mean = append(s.Max, r[1]), append(s.Mean, r[1]/3)
		}
	}
	s.Max[0], s.Mean[0] = 0, 0
	return s
}

func TestFind(t *testing.T) {
	type span struct {
		kind       string
		start, end int
		hold       string
	}
	for _, c := range []struct {
		name   string
		series Series
		rate   float64
		want   []span
	}{
		{"one frame", steps([2]float64{1, 0}), 24, []span{{Hold, 0, 0, Frozen}}},
		{"two unlike frames", steps([2]float64{1, 0}, [2]float64{1, 0.1}), 24, []span{{Move, 0, 1, ""}}},
		{"all still", steps([2]float64{30, 0}), 24, []span{{Hold, 0, 29, Frozen}}},
		{"hold, move, hold", steps([2]float64{10, 0}, [2]float64{5, 0.05}, [2]float64{9, 0}), 24,
			[]span{{Hold, 0, 9, Frozen}, {Move, 10, 13, ""}, {Hold, 14, 23, Frozen}}},
		{"a hold just long enough", steps([2]float64{10, 0.05}, [2]float64{3, 0}, [2]float64{10, 0.05}), 24,
			[]span{{Move, 0, 8, ""}, {Hold, 9, 12, Frozen}, {Move, 13, 22, ""}}},
		{"a frame too short", steps([2]float64{10, 0.05}, [2]float64{2, 0}, [2]float64{10, 0.05}), 24,
			[]span{{Move, 0, 21, ""}}},
		{"as short at 60", steps([2]float64{10, 0.05}, [2]float64{8, 0}, [2]float64{10, 0.05}), 60,
			[]span{{Move, 0, 27, ""}}},
		{"alive", steps([2]float64{10, 0.05}, [2]float64{20, 0.0029}, [2]float64{10, 0.05}), 24,
			[]span{{Move, 0, 8, ""}, {Hold, 9, 29, Moving}, {Move, 30, 39, ""}}},
		{"a pose that pops", steps([2]float64{10, 0}, [2]float64{1, 0.2}, [2]float64{9, 0}), 24,
			[]span{{Hold, 0, 9, Frozen}, {Hold, 10, 19, Frozen}}},
	} {
		o := Options{Rate: c.rate}
		got := Find(c.series, Exposures(c.series, o), o)
		if len(got) != len(c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
			continue
		}
		for i, b := range got {
			if g := (span{b.Kind, b.Start, b.End, b.Hold}); g != c.want[i] {
				t.Errorf("%s: beat %d is %+v, want %+v", c.name, i, g, c.want[i])
			}
		}
	}
}

func onPattern(n, drawings int, travel float64) Series {
	runs := [][2]float64{{10, 0}}
	for range drawings {
		runs = append(runs, [2]float64{1, travel}, [2]float64{float64(n - 1), 0})
	}
	return steps(append(runs, [2]float64{10, 0})...)
}

func TestExposures(t *testing.T) {
	for n, want := range map[int]string{1: Ones, 2: Twos, 3: Threes} {
		s := onPattern(n, 8, 0.05)
		got := Exposures(s, Options{Rate: 24})
		if len(got) != 1 || got[0].Pattern != want || got[0].Start != 10 || got[0].FramesPerDrawing != float64(n) {
			t.Errorf("every %d frames: %+v, want one stretch on %s from 10", n, got, want)
		}
		moves := 0
		for _, b := range Find(s, got, Options{Rate: 24}) {
			if b.Kind == Move {
				moves++
			}
		}
		if moves != 1 {
			t.Errorf("on %s: %d moves, want 1", want, moves)
		}
	}
}

// A drift of 0.25 % of the height a frame is a moving hold on twos as well as
// on ones, though each drawing jumps by 0.5 %.
func TestMovingHoldOnTwos(t *testing.T) {
	s := onPattern(2, 12, 0.005)
	got := Find(s, Exposures(s, Options{Rate: 24}), Options{Rate: 24})
	if len(got) != 1 || got[0].Kind != Hold {
		t.Errorf("got %+v, want one hold", got)
	}
}

func TestBeatsTile(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		var s Series
		for range 1 + draw.IntN(80) {
			v := draw.Float64() * draw.Float64() * draw.Float64() * 0.05
			if draw.IntN(3) > 0 {
				v = 0
			}
			s.Max, s.Mean = append(s.Max, v), append(s.Mean, v/2)
		}
		next := 0
		for _, b := range Find(s, Exposures(s, Options{}), Options{Rate: []float64{12, 24, 60}[draw.IntN(3)]}) {
			if b.Start != next || b.End < b.Start || b.Kind == Move && (b.Peak < b.Start || b.Peak > b.End) {
				t.Fatalf("beat %+v after frame %d", b, next-1)
			}
			next = b.End + 1
		}
		if next != len(s.Max) {
			t.Fatalf("beats end at %d of %d frames", next, len(s.Max))
		}
	}
}

func TestFindRepeats(t *testing.T) {
	stream := func(n int, change func(i int) float64) (out []float64) {
		for i := range n {
			out = append(out, change(i))
		}
		return out
	}
	every := func(n, first int) []float64 {
		return stream(100, func(i int) float64 {
			if i >= first && (i-first)%n == 0 {
				return 0.05
			}
			return 2 + float64(i%3)
		})
	}
	if r := FindRepeats(every(5, 3)); r == nil || r.Every != 5 || r.First != 3 {
		t.Errorf("one in five from 3: %+v", r)
	}
	if r := FindRepeats(every(2, 1)); r == nil || r.Every != 2 || r.First != 1 {
		t.Errorf("every second: %+v", r)
	}
	if r := FindRepeats(stream(100, func(i int) float64 { return 2 + float64(i%3) })); r != nil {
		t.Errorf("no repeats: %+v", r)
	}
	// Drawn on twos, clean, with holds: the holds tell it from a conform.
	if r := FindRepeats(stream(100, func(i int) float64 {
		if i%2 == 0 && i > 30 && i < 70 {
			return 3
		}
		return 0
	})); r != nil {
		t.Errorf("on twos with holds: %+v", r)
	}
}
