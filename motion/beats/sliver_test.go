package beats

import "testing"

// TestSlivers: what goes less than 2 % of the figure's height in all is no
// move, however many frames it takes; what goes as far is one.
func TestSlivers(t *testing.T) {
	sway := run{3, 0.0049} // 1.47 %
	for _, c := range []struct {
		name   string
		series Series
		want   string
	}{
		{"sway in a hold", steps(run{10, 0}, sway, run{9, 0}), "hold 0-21 frozen"},
		{"sway twice", steps(run{10, 0}, sway, run{9, 0}, sway, run{9, 0}), "hold 0-33 frozen"},
		{"nod of just 2 %", steps(run{10, 0}, run{2, 0.01}, run{9, 0}), "hold 0-9 frozen, move 10-10, hold 11-20 frozen"},
		{"sway, then a move", steps(run{10, 0}, sway, run{9, 0}, run{10, fast}), "hold 0-21 frozen, move 22-31"},
		{"sway at the start", steps(run{1, 0}, sway, run{9, 0}, run{10, fast}), "hold 0-12 frozen, move 13-22"},
		{"sway at the end", steps(run{10, fast}, run{9, 0}, sway), "move 0-8, hold 9-21 frozen"},
		{"sway before a move", steps(run{10, 0}, sway, run{10, fast}), "hold 0-9 frozen, move 10-22"},
		{"nothing but sway", steps(run{1, 0}, sway), "hold 0-3 moving"},
		{"slow but far", steps(run{10, 0}, run{20, 0.0049}, run{9, 0}), "hold 0-9 frozen, move 10-28, hold 29-38 frozen"},
	} {
		if got := told(find(c.series, 24)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

// What the noise shows is no way made.
func TestSliverInNoise(t *testing.T) {
	s := steps(run{10, 0}, run{3, 0.009}, run{9, 0})
	for range s.Max {
		s.Floor = append(s.Floor, 0.004)
	}
	if got := told(find(s, 24)); got != "hold 0-21 frozen" {
		t.Errorf("1.5 %% over the noise: %s", got)
	}
}

// A blink breaks no hold, whatever travels in it.
func TestPassingStepsAreStill(t *testing.T) {
	s := steps(run{10, 0}, run{3, fast}, run{9, 0})
	s.Passing = make([]bool, len(s.Max))
	for i := 10; i < 13; i++ {
		s.Passing[i] = true
	}
	if got := told(find(s, 24)); got != "hold 0-21 frozen" {
		t.Errorf("a hold with a blink: %s", got)
	}
}
