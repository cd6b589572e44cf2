package sheet

import (
	"errors"
	"testing"
)

var (
	film  = Rate{24, 1}
	tv    = Rate{24000, 1001}
	ntsc  = Rate{30000, 1001}
	fast  = Rate{60000, 1001}
	pal   = Rate{25, 1}
	phone = Rate{120, 1}
)

// Drop-frame values: rule of SMPTE ST 12-1, worked examples as third-party
// tests of the rule give them.
func TestTimecode(t *testing.T) {
	for _, c := range []struct {
		rate  Rate
		frame int64
		want  string
	}{
		{ntsc, 0, "00:00:00;00"},
		{ntsc, 1799, "00:00:59;29"},
		{ntsc, 1800, "00:01:00;02"},
		{ntsc, 17982, "00:10:00;00"},
		{ntsc, 107892, "01:00:00;00"},
		{fast, 3599, "00:00:59;59"},
		{fast, 3600, "00:01:00;04"},
		{fast, 35964, "00:10:00;00"},
		// Plain counting: the nearest whole rate labels each second (computed).
		{film, 0, "00:00:00:00"},
		{film, 23, "00:00:00:23"},
		{film, 24, "00:00:01:00"},
		{film, 86399, "00:59:59:23"},
		{tv, 1440, "00:01:00:00"},
		{pal, 90000, "01:00:00:00"},
		{phone, 119, "00:00:00:119"},
		{phone, 5, "00:00:00:005"},
		{Rate{1, 2}, 3, "00:00:03:00"},
	} {
		if got := c.rate.Timecode(c.frame); got != c.want {
			t.Errorf("%s fps: frame %d is %s, want %s", c.rate, c.frame, got, c.want)
		}
		got, err := c.rate.ParseTimecode(c.want)
		if err != nil || got != c.frame {
			t.Errorf("%s fps: %s is frame %d, %v; want %d", c.rate, c.want, got, err, c.frame)
		}
	}
	if got := film.Timecode(-25); got != "-00:00:01:01" {
		t.Errorf("frame -25 is %s", got)
	}
}

// Every label of the first 25 minutes names its own frame and no other, and
// labels only go up.
func TestTimecodeRoundTrip(t *testing.T) {
	for _, r := range []Rate{ntsc, fast, tv, pal} {
		last := ""
		for frame := range int64(r.Float() * 1500) {
			label := r.Timecode(frame)
			if label <= last {
				t.Fatalf("%s fps: %s follows %s", r, label, last)
			}
			last = label
			if back, err := r.ParseTimecode(label); err != nil || back != frame {
				t.Fatalf("%s fps: frame %d is %s is %d, %v", r, frame, label, back, err)
			}
		}
	}
}

func TestTimecodeRefusals(t *testing.T) {
	for _, c := range []struct {
		rate Rate
		text string
	}{
		{tv, "00:00:10;00"},         // no drop-frame at 23.976 (common practice, no source)
		{film, "00:00:10;00"},       // nor at whole rates
		{ntsc, "00:00:10:00"},       // would name another frame than the label the sheet prints
		{ntsc, "00:01:00;00"},       // left out by ST 12-1
		{ntsc, "00:09:00;01"},       // left out
		{fast, "00:01:00;03"},       // left out
		{film, "00:00:00:24"},       // frames go to 23
		{film, "00:00:60:00"},       // seconds to 59
		{film, "00:60:00:00"},       // minutes to 59
		{film, "100:00:00:00"},      // hours to 99
		{film, "00:00:10"},          // too short
		{film, "00:00:00:00:00"},    // too long
		{film, ":::"},               //
		{film, "-1:00:00:00"},       //
		{film, "00:00:00:+1"},       //
		{film, "00:00:00:99999999"}, //
		{film, "00:00:00: 1"},       //
		{film, ""},                  //
		{Rate{}, "00:00:00:00"},     // no rate at all
	} {
		var timecode *TimecodeError
		if got, err := c.rate.ParseTimecode(c.text); !errors.As(err, &timecode) {
			t.Errorf("%s fps: %q passes as frame %d, error %v", c.rate, c.text, got, err)
		}
	}
	if _, err := ntsc.ParseTimecode("00:10:00;00"); err != nil {
		t.Errorf("each tenth minute keeps its labels: %v", err)
	}
}

func FuzzParseTimecode(f *testing.F) {
	for _, s := range []string{"00:00:59;29", "01:02:03:04", "00:01:00;02", "::;", "99:59:59:23", "\xff:\u202e:0:0"} {
		f.Add(s, int64(24), int64(1))
		f.Add(s, int64(30000), int64(1001))
	}
	f.Fuzz(func(t *testing.T, s string, num, den int64) {
		r := Rate{num, den}
		frame, err := r.ParseTimecode(s)
		if err != nil {
			if unseen(err.Error()) {
				t.Errorf("the error for %q holds a character that does not print", s)
			}
			return
		}
		if back, err := r.ParseTimecode(r.Timecode(frame)); err != nil || back != frame {
			t.Errorf("%q is frame %d, which comes back as %d, %v", s, frame, back, err)
		}
	})
}

func TestMillisStayOnTheirFrame(t *testing.T) {
	for _, r := range []Rate{film, tv, ntsc, fast, pal, phone, {maxRatePart, 1}, {1, maxRatePart}} {
		for _, k := range []int64{1, 2, 3, 1000, 43199, 215999} {
			// k/r seconds, exactly: k·Den·1000 ≥ ms·Num, and a millisecond later it is past.
			ms := r.Millis(k)
			if ms*r.Num > k*r.Den*1000 {
				t.Errorf("%s fps: frame %d begins before its mark %d ms", r, k, ms)
			}
			if (ms+1)*r.Num <= k*r.Den*1000 {
				t.Errorf("%s fps: frame %d begins more than a millisecond after its mark %d ms", r, k, ms)
			}
		}
	}
	// 24000/1001 fps: one hour is 86313.7 frames (computed).
	if got := tv.Seconds(86314); got < 3600 || got > 3600.02 {
		t.Errorf("86314 frames last %g s", got)
	}
}

func TestParseRate(t *testing.T) {
	for text, want := range map[string]Rate{"24000/1001": tv, "25/1": pal, "1/2": {1, 2}} {
		if got, err := ParseRate(text); err != nil || got != want || got.String() != text {
			t.Errorf("%s: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "24", "24/0", "0/1", "-24/1", "24/-1", "24.0/1", "24/1/1", "4294967295/1", "+24/1", "nan/1"} {
		if got, err := ParseRate(text); err == nil {
			t.Errorf("%q passes as %v", text, got)
		}
	}
	for rate, want := range map[Rate]string{film: "24", tv: "23.976", ntsc: "29.97", {25, 2}: "12.5"} {
		if got := rate.Words(); got != want {
			t.Errorf("%v in words is %s, want %s", rate, got, want)
		}
	}
}

func TestParseSpan(t *testing.T) {
	for _, c := range []struct {
		from, to   string
		rate       Rate
		first      int
		start, end int64
	}{
		{"", "", film, 1, 0, -1},
		{"1", "1", film, 1, 0, 0},
		{"1001", "1096", film, 1001, 0, 95},
		{"-3", "", film, -5, 2, -1},
		{"", "24", film, 1, 0, 23},
		{"00:00:01:00", "48", film, 1, 24, 47},
		{"00:01:00;02", "00:10:00;00", ntsc, 1001, 1800, 17982},
		{"5", "", Rate{}, 1, 4, -1},
	} {
		start, end, err := ParseSpan(c.from, c.to, c.rate, c.first)
		if err != nil || start != c.start || end != c.end {
			t.Errorf("%q to %q from %d at %s fps: %d to %d, %v", c.from, c.to, c.first, c.rate, start, end, err)
		}
	}
	for _, c := range []struct{ from, to string }{
		{"0", ""}, {"x", ""}, {"1.5", ""}, {"2", "1"}, {"", "0"}, {"99999999999", ""}, {"00:00:01:00", "3"}, {"1 ", ""}, {"0x10", ""},
	} {
		var span *SpanError
		if start, end, err := ParseSpan(c.from, c.to, film, 1); !errors.As(err, &span) {
			t.Errorf("%q to %q passes as %d to %d, %v", c.from, c.to, start, end, err)
		}
	}
}

func FuzzParseSpan(f *testing.F) {
	for _, s := range [][2]string{{"1", "24"}, {"", ""}, {"00:00:01:00", "99"}, {"-5", "00:00:00;02"}} {
		f.Add(s[0], s[1], 1)
	}
	f.Fuzz(func(t *testing.T, from, to string, first int) {
		start, end, err := ParseSpan(from, to, film, first)
		if err == nil && (start < 0 || (end != -1 && end < start)) {
			t.Errorf("%q to %q from %d: %d to %d", from, to, first, start, end)
		}
	})
}
