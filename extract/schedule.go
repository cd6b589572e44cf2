package extract

import (
	"slices"
	"strconv"
	"strings"
)

// packetTimes turns a packet list, in decoding order, into presentation times
// in presentation order. Packets that an edit list takes out are left out.
// Where the decoding times fall back, or a time stamp leaps, a new stretch
// begins; stretches are laid one after the other with a break between them,
// which analyse closes.
//
// A program stream has one time stamp for all pictures that begin in one of its
// packets, so that some have a decoding time alone. Then the decoding times stand
// for all: in their order they lie as far apart as the others do in theirs.
func packetTimes(packets []packet, tb timeBase) (times []int64, last int64) {
	leap := int64(maxHole/tb.seconds()) + 1
	var stretch []int64
	flush := func() {
		slices.Sort(stretch)
		offset := int64(0)
		if n := len(times); n > 0 && tooFar(times[n-1], times[0]) {
			stretch = stretch[:0] // stretches of nonsense, laid end to end
		}
		if n := len(times); n > 0 && len(stretch) > 0 && stretch[0] <= times[n-1] {
			offset = times[n-1] + leap + 1 - stretch[0]
		}
		for _, t := range stretch {
			times = append(times, t+offset)
		}
		stretch = stretch[:0]
	}
	decoding := byDecoding(packets)
	var first *int64
	var dts, latest int64
	haveDTS := false
	for _, p := range packets {
		if discarded(p) || p.PTS == nil && p.DTS == nil {
			continue
		}
		t := p.DTS
		if p.PTS != nil && !decoding {
			t = p.PTS
		}
		if first == nil {
			first = t
		}
		if tooFar(*t, *first) {
			continue
		}
		if haveDTS && p.DTS != nil && *p.DTS < dts || len(stretch) > 0 && *t-latest > leap {
			flush()
		}
		if p.DTS != nil {
			dts, haveDTS = *p.DTS, true
		}
		if len(stretch) == 0 || *t >= latest {
			latest = *t
			if p.Duration != nil {
				last = *p.Duration
			}
		}
		stretch = append(stretch, *t)
	}
	flush()
	return times, last
}

// byDecoding tells whether only the decoding times are whole.
func byDecoding(packets []packet) bool {
	lacking := false
	for _, p := range packets {
		if !discarded(p) {
			lacking = lacking || p.PTS == nil
			if p.DTS == nil {
				return false
			}
		}
	}
	return lacking
}

// farthest is how many ticks from the first time stamp any is believed: 104
// days of nanoseconds. It keeps sums inside 64 bits.
const farthest = 1 << 53

func tooFar(t, from int64) bool {
	d := t - from
	return (d < 0) != (t < from) || d > farthest || d < -farthest
}

// discarded tells of packets that are decoded but not shown.
func discarded(p packet) bool { return strings.Contains(p.Flags, "D") }

func countDiscarded(packets []packet) int64 {
	var n int64
	for _, p := range packets {
		if discarded(p) {
			n++
		}
	}
	return n
}

// parseTimeBase reads "1/24000"; ok is false for what is no unit of time.
func parseTimeBase(s string) (timeBase, bool) {
	a, b, ok := strings.Cut(s, "/")
	num, errN := strconv.ParseInt(a, 10, 64)
	den, errD := strconv.ParseInt(b, 10, 64)
	if !ok || errN != nil || errD != nil || num <= 0 || den <= 0 || num > 1<<32 || den > 1<<32 {
		return timeBase{}, false
	}
	g := gcd(num, den)
	return timeBase{num / g, den / g}, true
}

// parseClaim reads a rate as ffprobe writes it; zero for "0/0" and for what
// is no frame rate.
func parseClaim(s string) Rate {
	a, b, _ := strings.Cut(s, "/")
	num, errN := strconv.ParseInt(a, 10, 64)
	den, errD := strconv.ParseInt(b, 10, 64)
	if errN != nil || errD != nil {
		return Rate{}
	}
	r, err := NewRate(num, den)
	if err != nil {
		return Rate{}
	}
	return r
}

// timeFile works out the rate of a file from its packets.
func timeFile(in input, v probedStream, claimed int64, packets []packet) (timing, timeBase) {
	c := claims{real: parseClaim(v.RealRate), average: parseClaim(v.AverageRate), frames: claimed}
	if strings.HasSuffix(in.force, "_pipe") {
		// Lone pictures have no time: the rate that ffmpeg names is its default.
		t := single(0, claims{})
		t.untimed = len(packets) > 1
		return t, timeBase{t.rate.Den, t.rate.Num}
	}
	tb, ok := parseTimeBase(v.TimeBase)
	if !ok {
		tb = timeBase{1, 90000}
	}
	times, last := packetTimes(packets, tb)
	if len(times) == 0 || !ok {
		t := single(0, c)
		t.untimed = len(packets) > 1
		return t, tb
	}
	return analyse(times, last, tb, c), tb
}

// lastingShare is how much of the length that a container claims its packets
// must cover to be all there.
const lastingShare = 0.95

// lasting returns how many seconds packets cover, the time that the last stays
// up left out.
func lasting(packets []packet, tb timeBase) float64 {
	var first, last int64
	seen := false
	for _, p := range packets {
		switch {
		case p.PTS == nil || seen && tooFar(*p.PTS, first):
		case !seen:
			first, last, seen = *p.PTS, *p.PTS, true
		default:
			first, last = min(first, *p.PTS), max(last, *p.PTS)
		}
	}
	return float64(last-first) * tb.seconds()
}
