package extract

import (
	"math"
	"math/rand"
	"testing"
)

// stamps gives the time stamps of n frames at a rate, rounded to ticks.
func stamps(n int, r Rate, tb timeBase) []int64 {
	times := make([]int64, n)
	for i := range times {
		times[i] = int64(math.Round(float64(i) * float64(r.Den) / float64(r.Num) / tb.seconds()))
	}
	return times
}

func without(times []int64, drop func(i int) bool) []int64 {
	var kept []int64
	for i, t := range times {
		if !drop(i) {
			kept = append(kept, t)
		}
	}
	return kept
}

func TestConstantRates(t *testing.T) {
	ms, cs, ninety := timeBase{1, 1000}, timeBase{1, 100}, timeBase{1, 90000}
	for _, c := range []struct {
		name string
		tb   timeBase
		n    int
		rate Rate
		real Rate // what ffprobe claims
	}{
		{"24 in milliseconds", ms, 48, Rate{24, 1}, Rate{24, 1}},
		{"24 in milliseconds, nothing claimed", ms, 2400, Rate{24, 1}, Rate{}},
		{"23.976 in milliseconds", ms, 240, Rate{24000, 1001}, Rate{24000, 1001}},
		{"23.976 in milliseconds, nonsense claimed", ms, 2400, Rate{24000, 1001}, Rate{500, 1}},
		{"29.97 in 90 kHz", ninety, 300, Rate{30000, 1001}, Rate{30000, 1001}},
		{"59.94 in milliseconds", ms, 600, Rate{60000, 1001}, Rate{}},
		{"12 on its own", timeBase{1, 12}, 5, Rate{12, 1}, Rate{12, 1}},
		{"25 in centiseconds", cs, 50, Rate{25, 1}, Rate{25, 1}},
		{"24 in centiseconds", cs, 100, Rate{24, 1}, Rate{}},
		{"a phone's", timeBase{1, 8694000}, 138, Rate{8694000, 72439}, Rate{8694000, 72439}},
		{"a phone's, nothing claimed", timeBase{1, 8694000}, 138, Rate{8694000, 72439}, Rate{}},
		{"two frames", ninety, 2, Rate{25, 1}, Rate{25, 1}},
	} {
		tm := analyse(stamps(c.n, c.rate, c.tb), 0, c.tb, claims{real: c.real})
		if tm.variable || tm.rate != c.rate {
			t.Errorf("%s: %+v, want %v", c.name, tm, c.rate)
		}
	}
}

func TestJitterIsConstant(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	tb := timeBase{1, 90000}
	times := stamps(300, Rate{30, 1}, tb)
	for i := range times {
		times[i] += rnd.Int63n(361) - 180 // ±2 ms
	}
	if tm := analyse(times, 0, tb, claims{average: Rate{2999, 100}}); tm.variable || tm.rate != (Rate{30, 1}) {
		t.Errorf("%+v", tm)
	}
}

func TestVariableRates(t *testing.T) {
	ms := timeBase{1, 1000}
	onTwosAndOnes := without(stamps(96, Rate{24, 1}, ms), func(i int) bool { return i < 60 && i%2 == 1 })
	mixed := append(stamps(24, Rate{24, 1}, ms), 0)[:24]
	for _, r := range []Rate{{12, 1}, {30, 1}} {
		for range 24 {
			mixed = append(mixed, mixed[len(mixed)-1]+int64(math.Round(1000/r.Float())))
		}
	}
	late := without(stamps(96, Rate{24, 1}, ms), func(i int) bool { return i%9 == 4 })
	for i := range late {
		late[i] += int64(i * 7 % 11)
	}
	for _, c := range []struct {
		name  string
		times []int64
		rate  Rate
	}{
		{"up to 10 ms late, and one of nine left out", late, Rate{24, 1}},
		{"on twos, then on ones", onTwosAndOnes, Rate{24, 1}},
		{"24, then 12, then 30", mixed, Rate{24, 1}},
		{"a recording that drops two of five", without(stamps(100, Rate{60, 1}, ms), func(i int) bool { return i%5 > 2 }), Rate{60, 1}},
	} {
		if tm := analyse(c.times, 0, ms, claims{}); !tm.variable || tm.rate != c.rate {
			t.Errorf("%s: %+v, want %v", c.name, tm, c.rate)
		}
	}
}

func TestMissingFramesAreNoVariableRate(t *testing.T) {
	tb := timeBase{1, 12288}
	times := without(stamps(96, Rate{24, 1}, tb), func(i int) bool { return i == 40 || i == 41 })
	tm := analyse(times, 0, tb, claims{real: Rate{24, 1}, average: Rate{24, 1}})
	if tm.variable || tm.missing != 2 || tm.rate != (Rate{24, 1}) {
		t.Errorf("%+v", tm)
	}
}

func TestBreaksAreClosed(t *testing.T) {
	tb := timeBase{1, 90000}
	times := stamps(48, Rate{24, 1}, tb)
	for i := 24; i < 48; i++ {
		times[i] += 36000 * 90000 // ten hours later
	}
	if tm := analyse(times, 0, tb, claims{}); tm.variable || tm.breaks != 1 || tm.rate != (Rate{24, 1}) {
		t.Errorf("%+v", tm)
	}
}

func TestPacketTimesAreReordered(t *testing.T) {
	at := func(pts, dts int64) packet { return packet{PTS: &pts, DTS: &dts, Flags: "__"} }
	hidden := at(7, 7)
	hidden.Flags = "_D"
	times, _ := packetTimes([]packet{at(0, -1), at(2, 0), at(1, 1), hidden, at(3, 8)}, timeBase{1, 24})
	for i, want := range []int64{0, 1, 2, 3} {
		if len(times) != 4 || times[i] != want {
			t.Fatalf("%v", times)
		}
	}
	// Pictures of a program stream that begin in the packet of another have a
	// decoding time alone, here three behind.
	bare := func(dts int64) packet { return packet{DTS: &dts, Flags: "__"} }
	times, _ = packetTimes([]packet{at(3, 0), at(6, 1), bare(2), bare(3), at(7, 4)}, timeBase{1, 24})
	if tm := analyse(times, 1, timeBase{1, 24}, claims{}); len(times) != 5 || tm.variable || tm.doubled != 0 {
		t.Errorf("with decoding times: %v %+v", times, tm)
	}
	// A clip joined to itself starts over, and goes on behind the first.
	times, _ = packetTimes([]packet{at(0, 0), at(1, 1), at(0, 0), at(1, 1)}, timeBase{1, 24})
	if tm := analyse(times, 1, timeBase{1, 24}, claims{}); tm.variable || tm.breaks != 1 || tm.rate != (Rate{24, 1}) {
		t.Errorf("joined: %v %+v", times, tm)
	}
}
