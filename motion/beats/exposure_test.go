package beats

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// drawn makes a series of drawings that each stay up for the given frames.
func drawn(up ...int) Series {
	var runs []run
	for _, n := range up {
		runs = append(runs, run{1, fast})
		if n > 1 {
			runs = append(runs, run{float64(n - 1), 0})
		}
	}
	return steps(runs...)
}

func toldExposures(list []Exposure) string {
	var words []string
	for _, e := range list {
		words = append(words, fmt.Sprintf("%s %d-%d", e.Pattern, e.Start, e.End))
	}
	return strings.Join(words, ", ")
}

func TestExposureStretches(t *testing.T) {
	for _, c := range []struct {
		name string
		up   []int // the first is the pose before anything moves
		want string
	}{
		{"nothing moves", []int{40}, ""},
		{"two drawings are chance", []int{20, 2, 2, 20}, ""},
		{"on fours", []int{20, 4, 4, 4, 4, 20}, "fours 20-39"},
		{"a hold on twos belongs to the twos", []int{20, 2, 2, 2, 2, 30, 2, 2, 2, 20}, "twos 20-65"},
		{"one drawing out of step", []int{20, 2, 2, 2, 1, 2, 2, 2, 20}, "twos 20-34"},
		{"ones, twos, threes at a stretch", []int{20, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 3, 3, 3, 3, 20}, "ones 20-24, twos 25-34, threes 35-49"},
		{"patterns change in a hold", []int{10, 1, 1, 1, 1, 30, 3, 3, 3, 3, 20}, "ones 10-14, threes 44-58"},
		{"poses that pop", []int{20, 18, 25, 30, 9}, "stepped 0-101"},
		{"two pops are chance", []int{20, 18, 25}, ""},
		{"pops after twos", []int{20, 2, 2, 2, 2, 18, 25, 30, 9}, "twos 20-29, stepped 30-109"},
	} {
		if got := toldExposures(Exposures(drawn(c.up...), Options{Rate: 24})); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// Conformed from 12 frames a second, drawings on ones stay up two frames and
// drawings on twos four: neither is a hold, and the pattern is the drawn one.
func TestExposureOfRepeatedPictures(t *testing.T) {
	twice := Options{Rate: 24, Repeats: &Repeats{Every: 2, First: 1}}
	for up, pattern := range map[int]string{2: Ones, 4: Twos} {
		list := []int{24}
		for range 6 {
			list = append(list, up)
		}
		s := drawn(append(list, 24)...)
		s.Max[25], s.Mean[25] = 0.01, 0.01 // what coding mends on a repeated picture
		exposure := Exposures(s, twice)
		if want := fmt.Sprintf("%s 24-%d", pattern, 23+7*up); toldExposures(exposure) != want {
			t.Errorf("every %d frames: %s, want %s", up, toldExposures(exposure), want)
		}
		want := fmt.Sprintf("hold 0-23 frozen, move 24-%d, hold %d-%d frozen", 23+6*up, 24+6*up, len(s.Max)-1)
		if got := told(Find(s, exposure, twice)); got != want {
			t.Errorf("every %d frames: %s, want %s", up, got, want)
		}
	}
}

// What two steps show stands for those half a second around both, and no farther;
// what a single one shows stands for itself.
func TestFloors(t *testing.T) {
	noise := make([]float64, 60)
	noise[10], noise[30], noise[34] = 0.005, 0.004, 0.003
	want := make([]float64, 60)
	for i := 22; i <= 42; i++ {
		want[i] = 0.003
	}
	want[10], want[18], want[19], want[20], want[21], want[22], want[30] = 0.005, 0.004, 0.004, 0.004, 0.004, 0.004, 0.004
	if got := Floors(noise, make([]float64, 60), 24); !slices.Equal(got, want) {
		t.Errorf("floors %v, want %v", got, want)
	}
	for i, got := range WideFloors(noise, make([]float64, 60), 24) {
		want := 0.0
		switch {
		case i >= 1 && i <= 22:
			want = 0.005
		case i > 22 && i <= 42:
			want = 0.004
		case i > 42 && i <= 46:
			want = 0.003
		}
		if got != want {
			t.Errorf("wide floor of step %d is %g, want %g", i, got, want)
		}
	}
	high := []float64{0, 0.2, 0.2}
	if got := Floors(high, high, 24); got[1] != floorMost {
		t.Errorf("a world that moves: floor %g, want %g", got[1], floorMost)
	}
	if got := Floors(high, []float64{0, 0, 0.001}, 24); got[1] != sparseMost {
		t.Errorf("a world that moves in spots: floor %g, want %g", got[1], sparseMost)
	}
	if got := Floors(nil, nil, 24); len(got) != 0 {
		t.Errorf("floors of nothing: %v", got)
	}
}

// What stays under the floor is frozen, and what goes beyond it alive.
func TestFrozenUnderTheFloor(t *testing.T) {
	for v, want := range map[float64]string{0.0009: Frozen, 0.0011: Moving} {
		s := steps(run{30, v})
		for range s.Max {
			s.Floor = append(s.Floor, 0.001)
		}
		if got := Find(s, nil, Options{Rate: 24}); len(got) != 1 || got[0].Hold != want {
			t.Errorf("steps of %g over a floor of 0.001: %+v, want %s", v, got, want)
		}
	}
}

// A hold is alive where an area shows change, and frozen where a spot flickers.
func TestAliveOverAnArea(t *testing.T) {
	for _, c := range []struct {
		wide, floor float64
		want        string
	}{{0.002, 0, Moving}, {0, 0, Frozen}, {0.002, 0.0025, Frozen}} {
		s := Series{Max: make([]float64, 30), Mean: make([]float64, 30), Wide: make([]float64, 30), WideFloor: make([]float64, 30)}
		for i := 1; i < 30; i++ {
			s.Max[i], s.Wide[i], s.WideFloor[i] = 0.002, c.wide, c.floor
		}
		if got := Find(s, nil, Options{Rate: 24}); len(got) != 1 || got[0].Hold != c.want {
			t.Errorf("%g over an area against %g of noise: %+v, want %s", c.wide, c.floor, got, c.want)
		}
	}
}
