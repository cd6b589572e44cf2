package extract

import "testing"

func TestParseRate(t *testing.T) {
	for in, want := range map[string]Rate{
		"24": {24, 1}, "24/1": {24, 1}, "48/2": {24, 1}, "24000/1001": {24000, 1001}, "12.5": {25, 2}, "25.0": {25, 1},
		"23.976": {24000, 1001}, "23.98": {24000, 1001}, "29.97": {30000, 1001}, "59.94": {60000, 1001},
		"47.952": {48000, 1001}, "119.88": {120000, 1001}, "24.5": {49, 2}, "8694000/72439": {8694000, 72439}, "1": {1, 1},
	} {
		if got, err := ParseRate(in); err != nil || got != want {
			t.Errorf("ParseRate(%q) = %v, %v; want %v", in, got, err, want)
		}
	}
}

func TestParseRateRefuses(t *testing.T) {
	for _, in := range []string{
		"", "0", "-24", "+24", "NaN", "nan", "Inf", "24fps", " 24", "24 ", "1e3", "24/0", "0/1", "24/-1", "24/1/1", ".5", "24.",
		"0x18", "٢٤", "1001", "0.01", "99999999999999999999", "1/99999999999999999999", "24.0000000001", "24/", "/24", "1_0",
	} {
		if got, err := ParseRate(in); err == nil {
			t.Errorf("ParseRate(%q) = %v, want an error", in, got)
		}
	}
}

func TestRateString(t *testing.T) {
	for r, want := range map[Rate]string{{24, 1}: "24/1", {30000, 1001}: "30000/1001", {}: "0/1"} {
		if got := r.String(); got != want {
			t.Errorf("%#v: %q, want %q", r, got, want)
		}
	}
}

func FuzzParseRate(f *testing.F) {
	for _, s := range []string{"24", "24000/1001", "23.976", "-1", "1e9", "9999999999/3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := ParseRate(s)
		if err != nil {
			return
		}
		if r.IsZero() || r.Float() < minRate || r.Float() > maxRate || gcd(r.Num, r.Den) != 1 {
			t.Fatalf("ParseRate(%q) = %v", s, r)
		}
		if again, err := ParseRate(r.String()); err != nil || again != r {
			t.Fatalf("%v reads back as %v, %v", r, again, err)
		}
	})
}
