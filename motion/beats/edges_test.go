package beats

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// told writes beats as "hold 0-9 frozen, move 10-13", easy to read and compare.
func told(list []Beat) string {
	var words []string
	for _, b := range list {
		words = append(words, strings.TrimSpace(fmt.Sprintf("%s %d-%d %s", b.Kind, b.Start, b.End, b.Hold)))
	}
	return strings.Join(words, ", ")
}

func find(s Series, rate float64) []Beat {
	o := Options{Rate: rate}
	return Find(s, Exposures(s, o), o)
}

// fast and slow are steps far over the still limit and well under it, figure
// heights a frame.
const fast, slow = 0.05, 0.002

type run = [2]float64

// TestShortestHoldAtEveryRate: a hold of the shortest length counts, one a
// frame shorter does not, at customary rates. The lengths are four frames at 24
// a second in proportion: a sixth of a second, at least two frames.
func TestShortestHoldAtEveryRate(t *testing.T) {
	for rate, shortest := range map[float64]int{
		8: 2, 12: 2, 24000.0 / 1001: 4, 24: 4, 25: 4, 30000.0 / 1001: 5, 30: 5, 48: 8, 50: 8, 60000.0 / 1001: 10, 60: 10, 120: 20,
	} {
		// n frames show one picture where n-1 steps are still.
		with := func(n int) []Beat { return find(steps(run{12, fast}, run{float64(n - 1), 0}, run{12, fast}), rate) }
		end := 11 + shortest - 1
		want := fmt.Sprintf("move 0-10, hold 11-%d frozen, move %d-%d", end, end+1, end+12)
		if got := told(with(shortest)); got != want {
			t.Errorf("at %.5g: %d frames alike: %s, want %s", rate, shortest, got, want)
		}
		if got := told(with(shortest - 1)); shortest > 2 && got != fmt.Sprintf("move 0-%d", end+11) {
			t.Errorf("at %.5g: %d frames alike: %s, want no hold", rate, shortest-1, got)
		}
	}
}

func TestFindAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		name   string
		series Series
		want   string
	}{
		{"nothing", Series{}, ""},
		{"one frame", steps(run{1, 0}), "hold 0-0 frozen"},
		{"two like frames", steps(run{2, 0}), "hold 0-1 frozen"},
		{"two unlike frames", steps(run{1, 0}, run{1, fast}), "move 0-1"},
		{"three frames, the last unlike", steps(run{2, 0}, run{1, fast}), "move 0-2"},
		{"all still", steps(run{48, 0}), "hold 0-47 frozen"},
		{"all moving", steps(run{48, fast}), "move 0-47"},
		{"all alive", steps(run{48, slow}), "hold 0-47 moving"},
		{"hold at the start", steps(run{4, 0}, run{10, fast}), "hold 0-3 frozen, move 4-13"},
		{"hold at the end", steps(run{10, fast}, run{3, 0}), "move 0-8, hold 9-12 frozen"},
		{"too short at the start", steps(run{3, 0}, run{10, fast}), "move 0-12"},
		{"too short at the end", steps(run{10, fast}, run{2, 0}), "move 0-11"},
		{"one step under the limit", steps(run{10, 0}, run{1, 0.00299}, run{10, 0}), "hold 0-20 frozen"},
		{"a pop in a hold", steps(run{12, 0}, run{1, fast}, run{11, 0}), "hold 0-11 frozen, hold 12-23 frozen"},
		{"two pops", steps(run{8, 0}, run{1, fast}, run{7, 0}, run{1, fast}, run{7, 0}), "hold 0-7 frozen, hold 8-15 frozen, hold 16-23 frozen"},
		{"alive, then moving on", steps(run{20, slow}, run{10, fast}), "hold 0-19 moving, move 20-29"},
		{"one stray step in five is frozen still", steps(run{10, 0}, run{1, slow}, run{9, 0}), "hold 0-19 frozen"},
	} {
		if got := told(find(c.series, 24)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// The still limit itself is no longer still; noise above it takes its place.
func TestStillLimit(t *testing.T) {
	at := func(v, floor float64) string {
		// A frozen hold first: a figure that is ever quite still is no living one,
		// whose rests are told otherwise.
		s := steps(run{10, 0}, run{10, fast}, run{12, v}, run{10, fast})
		for range s.Max {
			s.Floor = append(s.Floor, floor)
		}
		return told(Find(s, nil, Options{Rate: 24}))
	}
	if got := at(StillShare, 0); got != "hold 0-9 frozen, move 10-41" {
		t.Errorf("steps of the limit itself: %s", got)
	}
	if got := at(StillShare*0.999, 0); got != "hold 0-9 frozen, move 10-18, hold 19-31 moving, move 32-41" {
		t.Errorf("steps just under the limit: %s", got)
	}
	if got := at(0.005, 0.006); got != "hold 0-9 frozen, move 10-18, hold 19-31 frozen, move 32-41" {
		t.Errorf("steps under the noise: %s", got)
	}
}

// TestOnTwosAndThrees: a drawing that stays up for two or three frames is no
// hold, a pose that stays up longer is one, at all customary rates.
func TestOnTwosAndThrees(t *testing.T) {
	for up := 1; up <= 3; up++ {
		for _, rate := range []float64{12, 24, 30, 60} {
			drawings := 8
			var runs []run
			for range drawings {
				runs = append(runs, run{1, fast})
				if up > 1 {
					runs = append(runs, run{float64(up - 1), 0})
				}
			}
			long := math.Round(rate) // a hold of a second before and after
			s := steps(append(append([]run{{long, 0}}, runs...), run{long, 0})...)
			// The last drawing is the held pose: its step belongs to the hold.
			first, last := int(long), int(long)+up*(drawings-1)-1
			want := fmt.Sprintf("hold 0-%d frozen, move %d-%d, hold %d-%d frozen", first-1, first, last, last+1, len(s.Max)-1)
			if got := told(find(s, rate)); got != want {
				t.Errorf("every %d frames at %g: %s, want %s", up, rate, got, want)
			}
		}
	}
}

// A drift is a moving hold on ones, twos and threes alike: its rate a frame
// counts and not the jump of a drawing.
func TestMovingHoldOnAnyPattern(t *testing.T) {
	for up := 1; up <= 3; up++ {
		runs := []run{{12, fast}}
		for range 12 {
			runs = append(runs, run{1, 0.0025 * float64(up)})
			if up > 1 {
				runs = append(runs, run{float64(up - 1), 0})
			}
		}
		s := steps(append(runs, run{12, fast})...)
		exposure := []Exposure{{Start: 12, End: 11 + 12*up, Pattern: []string{Ones, Twos, Threes}[up-1], FramesPerDrawing: float64(up)}}
		want := fmt.Sprintf("move 0-10, hold 11-%d moving, move %d-%d", 11+12*up, 12+12*up, len(s.Max)-1)
		if got := told(Find(s, exposure, Options{Rate: 24})); got != want {
			t.Errorf("every %d frames: %s, want %s", up, got, want)
		}
	}
}

// TestPeaks draws moves whose fastest step is known, alone and tied.
func TestPeaks(t *testing.T) {
	bell := func(n int, top float64) []float64 { // half a cosine; its speed is a sine
		var v []float64
		for i := range n {
			v = append(v, top*math.Sin(math.Pi*(float64(i)+0.5)/float64(n)))
		}
		return v
	}
	series := func(move []float64) Series {
		mean := slices.Concat(make([]float64, 10), move, make([]float64, 10))
		return Series{Max: mean, Mean: mean}
	}
	for _, c := range []struct {
		name  string
		move  []float64
		peaks []int // any of them is right
	}{
		{"odd bell", bell(9, 0.1), []int{14}},
		{"even bell: the two in the middle tie", bell(8, 0.1), []int{13, 14}},
		{"ease in: fastest at its end", []float64{0.01, 0.02, 0.03, 0.05, 0.08, 0.12}, []int{14, 15}},
		{"ease out: fastest at its start", []float64{0.12, 0.08, 0.05, 0.03, 0.02, 0.01}, []int{10, 11}},
		{"even speed: all tie", []float64{0.05, 0.05, 0.05, 0.05, 0.05, 0.05}, []int{10, 11, 12, 13, 14, 15}},
	} {
		var moves []Beat
		for _, b := range find(series(c.move), 24) {
			if b.Kind == Move {
				moves = append(moves, b)
			}
		}
		if len(moves) != 1 {
			t.Errorf("%s: %s, want one move", c.name, told(moves))
			continue
		}
		m := moves[0]
		if !slices.Contains(c.peaks, m.Peak) {
			t.Errorf("%s: peak on %d, want one of %v", c.name, m.Peak, c.peaks)
		}
		if m.EaseIn != m.Peak-m.Start || m.EaseOut != m.End-m.Peak {
			t.Errorf("%s: eases %d and %d around %d in %d-%d", c.name, m.EaseIn, m.EaseOut, m.Peak, m.Start, m.End)
		}
		sum := 0.0
		for _, v := range c.move {
			sum += v
		}
		if math.Abs(m.Travel-sum) > 1e-12 {
			t.Errorf("%s: travel %g, want the sum of its steps, %g", c.name, m.Travel, sum)
		}
	}
}

// rough makes a series of anything: runs of still, slow and fast steps.
func rough(draw *rand.Rand) Series {
	var s Series
	for range draw.IntN(9) {
		v := []float64{0, 0, slow, 0.004, fast * draw.Float64(), 1}[draw.IntN(6)]
		up := 1 + draw.IntN(4)
		for i := range draw.IntN(24) {
			x := v
			if i%up != 0 {
				x = 0
			}
			s.Max, s.Mean = append(s.Max, x), append(s.Mean, x*draw.Float64())
		}
	}
	if len(s.Max) > 0 {
		s.Max[0], s.Mean[0] = 0, 0
	}
	return s
}

// lawful fails where beats do not tile the series or exposures overlap.
func lawful(t *testing.T, s Series, o Options) {
	t.Helper()
	exposure := Exposures(s, o)
	next := 0
	for _, e := range exposure {
		if e.Start < next || e.End < e.Start || e.End >= len(s.Max) || !(e.FramesPerDrawing >= 1) {
			t.Fatalf("exposures %+v of %d frames", exposure, len(s.Max))
		}
		next = e.End + 1
	}
	list := Find(s, exposure, o)
	next = 0
	for i, b := range list {
		switch {
		case b.Start != next || b.End < b.Start:
			t.Fatalf("%s: a gap or an overlap before beat %d", told(list), i)
		case b.Kind == Hold && (b.Peak != -1 || b.Hold != Frozen && b.Hold != Moving):
			t.Fatalf("hold %+v", b)
		case b.Kind == Move && (b.Peak < b.Start || b.Peak > b.End || b.EaseIn+b.EaseOut != b.End-b.Start || b.Hold != "" || !(b.Travel >= 0)):
			t.Fatalf("move %+v", b)
		case b.Kind == Move && i > 0 && list[i-1].Kind == Move:
			t.Fatalf("%s: two moves with nothing between", told(list))
		case b.Kind == Hold && b.End-b.Start+1 < o.MinHold() && len(list) > 1:
			t.Fatalf("%s: hold %d is shorter than %d frames", told(list), i, o.MinHold())
		}
		next = b.End + 1
	}
	if next != len(s.Max) {
		t.Fatalf("%s: %d frames", told(list), len(s.Max))
	}
}

func TestLawsOnRoughSeries(t *testing.T) {
	draw := rand.New(rand.NewPCG(6, 28))
	for range 3000 {
		rate := []float64{8, 12, 24, 30, 60, 120}[draw.IntN(6)]
		s := rough(draw)
		for range s.Max {
			s.Floor = append(s.Floor, 0.008*draw.Float64())
		}
		o := Options{Rate: rate}
		if draw.IntN(2) == 0 {
			every := 2 + draw.IntN(4)
			o.Repeats = &Repeats{Every: every, First: draw.IntN(every) - 9}
		}
		lawful(t, s, o)
	}
}

// FuzzFind takes two bytes a frame for its travel, up to half a figure height.
func FuzzFind(f *testing.F) {
	f.Add([]byte{}, 24.0)
	f.Add([]byte{0, 0}, 24.0)
	f.Add([]byte("\x00\x00\x10\x00\x00\x00\x10\x00\x00\x00\x10\x00\x00\x00\x00\x00\x00\x00"), 60.0)
	f.Fuzz(func(t *testing.T, data []byte, rate float64) {
		if !(rate > 0 && rate <= 1000) {
			t.Skip("no rate of a clip")
		}
		var s Series
		for ; len(data) >= 2; data = data[2:] {
			v := float64(binary.BigEndian.Uint16(data)) / 131072
			s.Max, s.Mean = append(s.Max, v), append(s.Mean, v/3)
		}
		if len(s.Max) > 0 {
			s.Max[0], s.Mean[0] = 0, 0
		}
		lawful(t, s, Options{Rate: rate})
	})
}
