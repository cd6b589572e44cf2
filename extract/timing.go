package extract

import (
	"math"
	"slices"
)

// timeBase is the unit of time stamps: Num/Den seconds.
type timeBase struct{ Num, Den int64 }

func (tb timeBase) seconds() float64 { return float64(tb.Num) / float64(tb.Den) }

// timing is what the time stamps of a clip say about its rate.
type timing struct {
	rate     Rate // the constant rate, or the one to conform to
	variable bool
	last     Rate // one over the time that the last frame stays up
	missing  int  // frames that a constant rate lacks; variable is not set
	doubled  int  // frames that share their time with another
	breaks   int  // holes and jumps that were closed
	untimed  bool // no time stamps at all: the rate is a guess of ffmpeg's
}

const (
	// maxHole is how long, in seconds, a frame may stay up. A recording of a
	// still screen pauses for seconds; a minute and more without a new
	// picture is a broken time stamp, and following it would make hours of
	// frames out of nothing.
	maxHole = 60.0
	// slotShare is how far from their slots, in slots from the earliest to
	// the latest, frames of a constant rate may be: within a quarter on
	// either side the nearest slot is still beyond doubt, so that laying the
	// frames out by time would give the same.
	slotShare = 0.5
	// fitSlack is how much worse than the best fit a customary rate may fit
	// jittery time stamps and still be taken for what was meant.
	fitSlack = 1.25
	// tickSlack allows for the rounding of each time stamp to a whole tick,
	// up or down.
	tickSlack = 1.0 + 1e-6
)

// customaryRates are rates that are made on purpose, slowest first. The
// families of 24, 25 and 30 are those of SMPTE ST 12-1; the others are common
// practice, no source.
var customaryRates = []Rate{
	{1, 1}, {2, 1}, {3, 1}, {4, 1}, {5, 1}, {6, 1}, {8, 1}, {25, 3}, {10, 1}, {12, 1}, {25, 2}, {15, 1}, {50, 3}, {16, 1}, {18, 1}, {20, 1},
	{24000, 1001}, {24, 1}, {25, 1}, {30000, 1001}, {30, 1}, {100, 3}, {48000, 1001}, {48, 1}, {50, 1}, {60000, 1001}, {60, 1},
	{72, 1}, {75, 1}, {90, 1}, {100, 1}, {120000, 1001}, {120, 1}, {144, 1}, {240000, 1001}, {240, 1}, {480, 1}, {960, 1},
}

func customary(r Rate) bool { return slices.Contains(customaryRates, r) }

// claims are what the container says, or ffmpeg makes of it.
type claims struct {
	real, average Rate
	frames        int64 // 0: nothing said
}

// named tells whether a rate is one of those that were claimed.
func (c claims) named(r Rate) bool { return r == c.real || r == c.average }

// analyse finds the rate in presentation times, sorted, in ticks of tb. last
// is the duration of the last frame in ticks, 0 when unknown.
func analyse(times []int64, last int64, tb timeBase, c claims) timing {
	times, doubled := distinct(times)
	if len(times) < 2 {
		return single(doubled, c)
	}
	median := medianInterval(times)
	times, breaks := closeBreaks(times, median, tb)
	t := timing{doubled: doubled, breaks: breaks}
	if rate, missing, ok := rateWithHoles(times, tb, c); ok && doubled == 0 && breaks == 0 {
		t.rate, t.last, t.missing = rate, rate, missing
		return t
	}
	if rate, ok := constantRate(times, tb, breaks, c); ok && doubled == 0 {
		t.rate, t.last = rate, rate
		return t
	}
	t.variable = true
	t.rate = conformRate(times, median, tb, c)
	t.last = lastRate(last, median, tb, t.rate)
	return t
}

// single is the timing of a clip with one time only.
func single(doubled int, c claims) timing {
	t := timing{doubled: doubled, rate: defaultSequenceRate}
	for _, r := range []Rate{c.average, c.real} {
		if !r.IsZero() {
			t.rate = r
			break
		}
	}
	t.last = t.rate
	return t
}

// distinct drops repeated times and counts them.
func distinct(times []int64) ([]int64, int) {
	d := slices.Compact(slices.Clone(times))
	return d, len(times) - len(d)
}

func medianInterval(times []int64) int64 { return intervalQuantile(times, 0.5) }

// intervalQuantile returns the q-quantile of the steps between times.
func intervalQuantile(times []int64, q float64) int64 {
	steps := make([]int64, len(times)-1)
	for i := range steps {
		steps[i] = times[i+1] - times[i]
	}
	slices.Sort(steps)
	return steps[int(q*float64(len(steps)-1))]
}

// closeBreaks shortens steps longer than maxHole to the usual one.
func closeBreaks(times []int64, usual int64, tb timeBase) (closed []int64, breaks int) {
	closed = make([]int64, len(times))
	closed[0] = times[0]
	for i := 1; i < len(times); i++ {
		step := times[i] - times[i-1]
		if float64(step)*tb.seconds() > maxHole && step > 2*usual {
			step = usual
			breaks++
		}
		closed[i] = closed[i-1] + step
	}
	return closed, breaks
}

// spread returns how far times are from an even row of the given rate, from
// the earliest to the latest, in ticks, with the best start of the row.
func spread(times []int64, tb timeBase, r Rate) float64 {
	slot := slotTicks(tb, r)
	low, high := math.Inf(1), math.Inf(-1)
	for i, t := range times {
		d := float64(t-times[0]) - float64(i)*slot
		low, high = math.Min(low, d), math.Max(high, d)
	}
	return high - low
}

// slotTicks is the time of one frame in ticks.
func slotTicks(tb timeBase, r Rate) float64 {
	return float64(r.Den) / float64(r.Num) / tb.seconds()
}

// constantRate finds the rate of which times are the evenly spaced frames,
// each within the rounding of its time stamp; failing that, one that places
// every frame in its own slot beyond doubt.
func constantRate(times []int64, tb timeBase, breaks int, c claims) (Rate, bool) {
	candidates := candidateRates(times, tb, c)
	best := math.Inf(1)
	rounding := tickSlack * float64(1+breaks) // a closed break is a whole number of ticks
	for _, r := range candidates {
		s := spread(times, tb, r)
		if s <= rounding && s < slotShare*slotTicks(tb, r) {
			return r, true
		}
		best = math.Min(best, s)
	}
	for _, r := range candidates {
		s := spread(times, tb, r)
		if s < slotShare*slotTicks(tb, r) && s <= math.Max(fitSlack*best, best+rounding) {
			return r, true
		}
	}
	return Rate{}, false
}

// candidateRates lists rates in the order in which they are believed:
// customary ones that the file claims, customary ones near the average of the
// times, claimed ones, the average itself.
func candidateRates(times []int64, tb timeBase, c claims) []Rate {
	var list []Rate
	add := func(r Rate) {
		if !r.IsZero() && !slices.Contains(list, r) {
			list = append(list, r)
		}
	}
	for _, r := range []Rate{c.real, c.average} {
		if customary(r) {
			add(r)
		}
	}
	average := averageRate(times, tb)
	near := slices.Clone(customaryRates)
	slices.SortStableFunc(near, func(a, b Rate) int {
		return cmpFloat(distance(a, average), distance(b, average))
	})
	for _, r := range near[:nearRates] {
		add(r)
	}
	add(c.real)
	add(c.average)
	if exact, err := exactAverage(times, tb); err == nil {
		add(exact)
	}
	return list
}

// nearRates is how many customary rates are tried: the two of a 1000/1001
// family and a neighbour on each side.
const nearRates = 4

func averageRate(times []int64, tb timeBase) float64 {
	return float64(len(times)-1) / (float64(times[len(times)-1]-times[0]) * tb.seconds())
}

// exactAverage is the average rate as a fraction; for evenly spaced times it
// is exact, as in 8694000/72439.
func exactAverage(times []int64, tb timeBase) (Rate, error) {
	n, span := int64(len(times)-1), times[len(times)-1]-times[0]
	g := gcd(n, span)
	n, span = n/g, span/g
	g = gcd(tb.Den, span)
	den, span := tb.Den/g, span/g
	if n > noLimit/den || span > noLimit/tb.Num {
		return Rate{}, errTooLarge
	}
	return NewRate(n*den, span*tb.Num)
}

// distance is how far a rate is from a number of frames per second, as a
// ratio: 0 when equal.
func distance(r Rate, fps float64) float64 { return math.Abs(math.Log(r.Float() / fps)) }

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}
