package extract

import (
	"errors"
	"math"
	"slices"
)

var errTooLarge = errors.New("numbers too large")

const (
	// gridShare is how many of the times must lie on a grid for it to be
	// that of the clip; the rest may be glitches.
	gridShare = 0.99
	// gridTolerance is how far from a grid line a time may lie, in slots.
	gridTolerance = 0.1
	// fastShare is the share of the shortest steps that say how fast the
	// clip gets; a grid finer than those would only repeat frames.
	fastShare = 0.1
	// nearEnough is the ratio within which a customary rate stands for a
	// measured one: half of the way from 24 to 25 frames per second.
	nearEnough = 0.02
	// sameRate is the ratio below which two rates are one: half of the way
	// between the members of a 1000/1001 family.
	sameRate = 5e-4
)

// conformRate chooses the constant rate for a clip with uneven times:
//
//  1. a customary rate that the file claims, when it is that of the usual step
//     and hardly any step is shorter;
//  2. the slowest customary rate, not faster than the clip's fast steps, on
//     whose grid the times lie (frames were left out of a constant rate, and
//     come back as repeats);
//  3. the rate that ffmpeg works out, when it is that of the usual step;
//  4. the customary rate nearest to the usual step, within 2 %;
//  5. the same for the mean of the steps that leave out no frame: times that
//     come early and late by turns have no usual step;
//  6. that of the usual step, to the whole frame.
func conformRate(times []int64, median int64, tb timeBase, c claims) Rate {
	usual := 1 / (usualStep(times, median) * tb.seconds())
	fast := 1 / (float64(intervalQuantile(times, fastShare)) * tb.seconds())
	for _, r := range []Rate{c.average, c.real} {
		if customary(r) && distance(r, usual) < sameRate && distance(r, fast) < nearEnough {
			return r
		}
	}
	if r, ok := gridRate(times, tb, c); ok {
		return r
	}
	if !c.real.IsZero() && distance(c.real, usual) < nearEnough {
		return c.real
	}
	if r := nearestRate(customaryRates, usual); distance(r, usual) < nearEnough {
		return r
	}
	mean := 1 / (plainStep(times, median) * tb.seconds())
	if r := c.familyOf(nearestRate(customaryRates, mean)); distance(r, mean) < nearEnough {
		return r
	}
	whole, err := NewRate(int64(math.Max(1, math.Min(maxRate, math.Round(usual)))), 1)
	if err != nil {
		return defaultSequenceRate
	}
	return whole
}

// usualStep is the mean of the steps that differ from the median by rounding
// only, in ticks: 41 and 42 ms together say 24 frames per second. Where ticks
// are coarse (a step of under ten), a tick more is another step.
func usualStep(times []int64, median int64) float64 {
	if median < 10 {
		return float64(median)
	}
	sum, n := 0.0, 0.0
	for i := 1; i < len(times); i++ {
		if d := times[i] - times[i-1] - median; d >= -1 && d <= 1 {
			sum += float64(d)
			n++
		}
	}
	return float64(median) + sum/n
}

// nearestRate is the first of the rates nearest to so many frames a second.
func nearestRate(list []Rate, fps float64) Rate {
	return slices.MinFunc(list, func(a, b Rate) int { return cmpFloat(distance(a, fps), distance(b, fps)) })
}

// sameFamily is the ratio below which two rates are of one 1000/1001 family.
const sameFamily = 2e-3

// familyOf is the member of a rate's 1000/1001 family that is claimed, else the one
// of whole frames a second: times too uneven to tell them apart are no reason for
// the other.
func (c claims) familyOf(r Rate) Rate {
	whole := r
	for _, other := range customaryRates {
		switch {
		case distance(other, r.Float()) > sameFamily:
		case c.named(other):
			return other
		case other.Den == 1:
			whole = other
		}
	}
	return whole
}

// plainStep is the mean of the steps that are one frame long however late its ends
// are, half a usual one more or less, in ticks. From one frame to the next what is
// late of one is early of the other, so that it hardly counts.
func plainStep(times []int64, median int64) float64 {
	sum, n := 0.0, 0.0
	for i := 1; i < len(times); i++ {
		if d := times[i] - times[i-1]; 2*d > median && 2*d < 3*median {
			sum += float64(d)
			n++
		}
	}
	return sum / n
}

// gridRate finds the slowest customary rate that places the times on its
// grid; of two rates of one 1000/1001 family, the one that is claimed, else the
// one that fits better.
func gridRate(times []int64, tb timeBase, c claims) (Rate, bool) {
	fast := 1 / (float64(intervalQuantile(times, fastShare)) * tb.seconds())
	for i, r := range customaryRates {
		if r.Float() > fast*(1+nearEnough) {
			break
		}
		off, ok := offGrid(times, tb, r)
		if !ok {
			continue
		}
		if i+1 < len(customaryRates) {
			next := customaryRates[i+1]
			if distance(next, r.Float()) < sameFamily {
				if offNext, ok := offGrid(times, tb, next); ok && !c.named(r) && (c.named(next) || offNext < off) {
					return next, true
				}
			}
		}
		return r, true
	}
	return Rate{}, false
}

// offGrid returns the mean distance of times from the grid of a rate, in
// slots, and whether nearly all lie on it, no two in one slot.
func offGrid(times []int64, tb timeBase, r Rate) (mean float64, ok bool) {
	slot := slotTicks(tb, r)
	tolerance := math.Max(gridTolerance, tickSlack/slot)
	if tolerance > slotShare/2 {
		return 0, false // ticks too coarse to tell
	}
	on, previous := 0, -1.0
	for _, t := range times {
		at := float64(t-times[0]) / slot
		line := math.Round(at)
		mean += math.Abs(at-line) / float64(len(times))
		if math.Abs(at-line) <= tolerance && line > previous {
			on++
		}
		previous = line
	}
	return mean, float64(on) >= gridShare*float64(len(times))
}

// lastRate is one over the time that the last frame stays up: what the
// container says, when that is neither nothing nor a hole, else the usual step.
func lastRate(last, median int64, tb timeBase, rate Rate) Rate {
	if last <= 0 || float64(last)*tb.seconds() > maxHole {
		last = median
	}
	g := gcd(tb.Den, last)
	den, ticks := tb.Den/g, last/g
	if ticks > noLimit/tb.Num {
		return rate
	}
	r := Rate{den, ticks * tb.Num}
	if r.Num > maxRateTerm || r.Den > maxRateTerm {
		return rate
	}
	return r
}

// oneSlotShare is how many of the steps must be of one slot for the rest to
// be holes rather than a variable rate.
const oneSlotShare = 0.9

// rateWithHoles recognises a clip of a constant rate that lost frames to
// damage or a cut: it has fewer than it claims or hardly any hole, and what it
// has lies on the grid of the customary rate that it claims. It does not take
// clips without holes.
func rateWithHoles(times []int64, tb timeBase, c claims) (r Rate, missing int, ok bool) {
	for _, r := range []Rate{c.average, c.real} {
		if !customary(r) {
			continue
		}
		if _, on := offGrid(times, tb, r); !on {
			continue
		}
		slot := slotTicks(tb, r)
		slots := int(math.Round(float64(times[len(times)-1]-times[0])/slot)) + 1
		missing = slots - len(times)
		short := c.frames > int64(len(times)) && int64(slots) <= c.frames
		single := 0
		for i := 1; i < len(times); i++ {
			if math.Round(float64(times[i]-times[i-1])/slot) == 1 {
				single++
			}
		}
		if missing > 0 && (short || float64(single) >= oneSlotShare*float64(len(times)-1)) {
			return r, missing, true
		}
	}
	return Rate{}, 0, false
}
