package sheet

import "testing"

// A move that is small against the clip's biggest is not said to have no size.
func TestPercent(t *testing.T) {
	for share, want := range map[float64]string{0: "0 %", 0.001: "<1 %", 0.0099: "<1 %", 0.01: "1 %", 0.5: "50 %", 1: "100 %"} {
		if got := percent(&share); got != want {
			t.Errorf("%g is written as %q, want %q", share, got, want)
		}
	}
	if got := percent(nil); got != "" {
		t.Errorf("no size is written as %q", got)
	}
}
