package compare

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

const (
	// leastOverlap is the share of the shorter clip in which two curves are held
	// against each other: with less, chance agrees with anything.
	leastOverlap = 2.0 / 3

	// overlapPrice is what the correlation must be higher by to leave all of the
	// shorter clip out: the shorter the overlap, the easier curves agree.
	overlapPrice = 0.15

	// mostOffsetSeconds is how much later or earlier the pass may come: slates and
	// countdowns are shorter.
	mostOffsetSeconds = 10.0

	// relatedCurves is the correlation from which two clips of hardly any beats
	// are related by their motion curves alone. Recorded people filmed from two
	// directions reach 0.77 to 0.96 where the camera sees the same limbs move, and
	// as little as 0.5 where it does not; others of some length mostly stay under 0.7.
	relatedCurves = 0.7
)

// curveOffset is the offset, whole frames of the pass, at which the two motion
// curves correlate best, and how well, a short overlap taken off.
func (f *fit) curveOffset() (offset int, correlation float64) {
	return bestOffset(f.reference.conformed(f.stretch), f.pass.curve, int(mostOffsetSeconds*f.pass.rate))
}

// bestOffset is by how many samples, at most so many, b comes later than a where
// they correlate best, and how well, a short overlap taken off; -1 where they
// never overlap enough.
func bestOffset(a, b []float64, most int) (offset int, correlation float64) {
	shorter := float64(min(len(a), len(b)))
	least := int(leastOverlap * shorter)
	correlation = -1
	for k := max(least-len(a), -most); k <= min(len(b)-least, most); k++ {
		from, to := overlap(a, b, k)
		if to-from < max(least, 2) {
			continue
		}
		c := correlate(a[from:to], b[from+k:to+k]) - overlapPrice*(1-float64(to-from)/shorter)
		if c > correlation+1e-9 {
			offset, correlation = k, c
		}
	}
	return offset, correlation
}

// overlap is the part of a that b shows too where it comes k samples later.
func overlap(a, b []float64, k int) (from, to int) { return max(0, -k), min(len(a), len(b)-k) }

// conformed is the curve of a line at the rate of the pass.
func (l *line) conformed(stretch float64) []float64 {
	list := make([]float64, int(float64(len(l.curve))*stretch+0.5))
	for i := range list {
		list[i] = l.at(float64(i) / stretch)
	}
	return list
}

// correlate is the correlation of two stretches of curve; two that are flat are
// the same, and one is like nothing else.
func correlate(a, b []float64) float64 {
	if c := stat.Correlation(a, b, nil); !math.IsNaN(c) {
		return c
	}
	if flat(a) && flat(b) {
		return 1
	}
	return 0
}

func flat(list []float64) bool { return slices.Min(list) == slices.Max(list) }
