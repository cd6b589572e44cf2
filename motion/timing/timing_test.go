package timing

import (
	"math"
	"slices"
	"testing"
)

// The value is that of the authors' reference code for this profile
// (Balasubramanian et al. 2012, 2015).
func TestSpectralArcLengthOfThePublishedProfile(t *testing.T) {
	var speed []float64
	for i := range 200 {
		x := -1 + 0.01*float64(i)
		speed = append(speed, math.Exp(-5*x*x))
	}
	if got := SpectralArcLength(speed, 100); math.Abs(got+1.41403) > 5e-6 {
		t.Errorf("%.5f, want -1.41403", got)
	}
	for i := range speed {
		speed[i] *= 1000
	}
	if got := SpectralArcLength(speed, 100); math.Abs(got+1.41403) > 5e-6 {
		t.Errorf("%.5f at another size", got)
	}
}

func TestSpectralArcLengthOfNothing(t *testing.T) {
	for _, speed := range [][]float64{nil, {0}, make([]float64, 30)} {
		if got := SpectralArcLength(speed, 24); !math.IsNaN(got) {
			t.Errorf("%v: %g", speed, got)
		}
	}
}

// swing is a move of n frames that speeds up and slows down as half a cosine
// does, after a frame at rest.
func swing(n int) []float64 {
	v := []float64{0}
	for i := range n {
		v = append(v, math.Sin(math.Pi*(float64(i)+0.5)/float64(n)))
	}
	return append(v, 0)
}

func TestAStallMakesAMoveLessSmooth(t *testing.T) {
	for _, n := range []int{10, 14, 20, 30} {
		smooth := swing(n)
		stalled := slices.Clone(smooth)
		stalled[n/2] = 0
		a, b := SpectralArcLength(smooth, 24), SpectralArcLength(stalled, 24)
		if !(b < a-0.1) {
			t.Errorf("%d frames: %.3f with a stall, %.3f without", n, b, a)
		}
	}
}

func TestHitches(t *testing.T) {
	stalled := func(at ...int) []float64 {
		v := swing(16)
		for _, i := range at {
			v[i] = 0.2 * v[i]
		}
		return v
	}
	turn := swing(8) // goes out, slows down, turns and comes back
	turn = append(turn[:len(turn)-1], swing(8)[1:]...)
	overshoot := []float64{0, 0.2, 0.5, 1, 0.6, 0.2, 0.02, 0.15, 0.18, 0.1, 0.02, 0}
	for name, c := range map[string]struct {
		travel []float64
		want   []int // first and last frame of each
	}{
		"smooth":      {swing(16), nil},
		"one frame":   {stalled(8), []int{8, 8}},
		"two frames":  {stalled(8, 9), []int{8, 9}},
		"three":       {stalled(8, 9, 10), nil},
		"twice":       {stalled(6, 11), []int{6, 6, 11, 11}},
		"turns":       {turn, nil},
		"overshoots":  {overshoot, nil},
		"even":        {[]float64{0, 1, 1, 1, 1, 1, 1, 1, 0}, nil},
		"too few":     {[]float64{0, 1, 0.1, 1, 0}, nil},
		"at the ends": {[]float64{0, 0.1, 1, 1, 1, 1, 0.1, 0}, nil},
	} {
		m := Read(c.travel, 1, len(c.travel)-2, Way{Rate: 24})
		var got []int
		for _, h := range m.Hitches {
			got = append(got, h.Frame, h.End)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: hitches %v, want %v", name, m.Hitches, c.want)
		}
	}
}

// A drawing of a clip of few frames a second is up for so long that one which
// stalls is a stop.
func TestHitchesAreShort(t *testing.T) {
	v := []float64{0, 1, 1, 1, 0.1, 0.1, 1, 1, 1, 0}
	for rate, want := range map[float64]int{2: 0, 5: 0, 10: 0, 12: 1, 12000.0 / 1001: 1, 24: 1, 60: 1} {
		if m := Read(v, 1, len(v)-2, Way{Rate: rate}); len(m.Hitches) != want {
			t.Errorf("%g a second: hitches %v, want %d", rate, m.Hitches, want)
		}
	}
}

func TestDepthOfAHitch(t *testing.T) {
	m := Read([]float64{0, 1, 1, 1, 0.25, 1, 1, 1, 0}, 1, 7, Way{Rate: 24})
	if len(m.Hitches) != 1 || m.Hitches[0] != (Hitch{4, 4, 0.75}) {
		t.Errorf("hitches %v", m.Hitches)
	}
}

// A figure on twos moves every other frame and does not hitch on the others; one
// of its drawings may.
func TestOnTwos(t *testing.T) {
	var travel []float64
	for _, v := range swing(12) {
		travel = append(travel, v, 0)
	}
	way := Way{Rate: 24, Up: 2}
	smooth := Read(travel, 2, len(travel)-3, way)
	if len(smooth.Hitches) > 0 || math.Abs(smooth.Smoothness-SpectralArcLength(swing(12)[1:], 12)) > 1e-9 {
		t.Errorf("%+v", smooth)
	}
	travel[14] = 0
	if m := Read(travel, 2, len(travel)-3, way); len(m.Hitches) != 1 || m.Hitches[0].Frame != 14 || m.Hitches[0].End != 15 {
		t.Errorf("%+v", m)
	}
}

// A clip conformed from 24 to 30 repeats every fifth frame: no hitch.
func TestRepeatedFramesAreNoHitches(t *testing.T) {
	var travel []float64
	for i, v := range swing(16) {
		travel = append(travel, v)
		if i%4 == 3 {
			travel = append(travel, 0)
		}
	}
	way := Way{Rate: 30, Repeats: func(i int) bool { return i%5 == 4 }}
	m := Read(travel, 1, len(travel)-2, way)
	if len(m.Hitches) > 0 {
		t.Errorf("hitches %v", m.Hitches)
	}
	if p := Drawn(travel, 0, 19, way); p.Rate != 24 || len(p.Speed) != 16 {
		t.Errorf("%d drawings at %g a second", len(p.Speed), p.Rate)
	}
	if plain := Read(travel, 1, len(travel)-2, Way{Rate: 30}); len(plain.Hitches) == 0 {
		t.Error("with the repeats unknown there is no hitch")
	}
}

func TestSettle(t *testing.T) {
	for name, c := range map[string]struct {
		travel []float64
		want   int
	}{
		"stops dead":     {[]float64{0, 0.3, 0.6, 1, 0}, 0}, // lands at full speed on frame 3; the pose is frame 3
		"settles":        {[]float64{0, 0.3, 1, 0.6, 0.2, 0.1, 0.05, 0}, 3},
		"dips, goes on":  {[]float64{0, 1, 0.1, 0.5, 0.2, 0}, 1},
		"nothing at all": {[]float64{0, 0, 0}, 0},
	} {
		if got := Read(c.travel, 1, len(c.travel)-2, Way{Rate: 24}).Settle; got != c.want {
			t.Errorf("%s: %d frames, want %d", name, got, c.want)
		}
	}
}

// An even move has no ease; half a cosine is slower than three fifths of its peak for
// asin(0.6)/pi of its time at either end.
func TestSpacing(t *testing.T) {
	share := math.Asin(0.6) / math.Pi
	none := math.NaN()
	quarter := []float64{0}
	for i := range 20 {
		quarter = append(quarter, math.Sin(math.Pi*(float64(i)+0.5)/40))
	}
	lone := append(slices.Clone(swing(20)[:10]), 3)
	lone = append(lone, swing(20)[11:]...)
	for name, c := range map[string]struct {
		travel         []float64
		start, end     int
		in, out, least float64
	}{
		"even":             {[]float64{0, 0, 1, 1, 1, 1, 1, 0}, 2, 5, 0, 0, 1},
		"half cosine":      {swing(20), 1, 19, 20 * share, 20 * share, 0.6},
		"stops dead":       {append(quarter, 0), 1, 19, 40 * share, 0, 0.6},
		"slackens":         {[]float64{0, 1, 1, 0.2, 1, 1, 0}, 1, 4, 0, 0, 0.2},
		"three drawings":   {[]float64{0, 0.1, 1, 0.1, 0}, 1, 2, none, none, none},
		"the shot begins":  {[]float64{0, 1, 1, 1, 1, 0}, 0, 3, none, 0, 1},
		"the shot ends":    {[]float64{0, 0, 1, 1, 1, 1}, 2, 5, 0, none, 1},
		"nothing":          {make([]float64, 9), 1, 7, none, none, none},
		"one drawing fast": {lone, 1, 19, 20 * share, 20 * share, 0.6},
	} {
		s := Space(c.travel, c.start, c.end, Way{Rate: 24})
		near := func(got, want, within float64) bool {
			return math.Abs(got-want) <= within || math.IsNaN(got) && math.IsNaN(want)
		}
		if !near(s.EaseIn, c.in, 0.15) || !near(s.EaseOut, c.out, 0.15) || !near(s.Least, c.least, 0.1) {
			t.Errorf("%s: eases in %.2f and out %.2f, least %.2f; want %.2f, %.2f, %.2f", name, s.EaseIn, s.EaseOut, s.Least, c.in, c.out, c.least)
		}
		if len(s.Frames) != len(s.Travel) || len(s.Frames) != min(c.end+1, len(c.travel)-1)-max(1, c.start)+1 {
			t.Errorf("%s: %d drawings, %d values", name, len(s.Frames), len(s.Travel))
		}
	}
}

// On twos each drawing counts once and an ease takes as many frames.
func TestSpacingOnTwos(t *testing.T) {
	var travel []float64
	for _, v := range swing(12) {
		travel = append(travel, v, 0)
	}
	s := Space(travel, 2, len(travel)-5, Way{Rate: 24, Up: 2})
	want := 24 * math.Asin(0.6) / math.Pi
	if len(s.Frames) != 12 || s.Frames[1] != 4 || math.Abs(s.EaseIn-want) > 0.3 || math.Abs(s.EaseOut-want) > 0.3 {
		t.Errorf("%+v, want eases of %.2f frames", s, want)
	}
}
