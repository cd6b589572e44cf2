// Package twins tells where two parts do the same at the same time, mirrored or
// parallel. It knows numbers only, no pictures.
package twins

import (
	"math"
	"slices"
)

// Ways in which two parts do the same.
const (
	Mirrored = "mirrored" // left against right
	Parallel = "parallel"
)

// A Path is how a part goes, one value a frame: its way from the frame before in
// figure heights, the camera taken out; NaN where that is not
// known.
type Path struct{ X, Y []float64 }

// A Twin is a stretch in which two parts do the same.
type Twin struct {
	Way        string
	Start, End int     // first and last frame on which either moves
	Likeness   float64 // correlation of both ways, 1 for the same
	Offset     float64 // frames by which the second part is later
}

const (
	// stirs is the way, figure heights a frame, from which a part moves: that of beats.
	stirs = 0.003
	// leastWay is the least way, in figure heights, that each part must go in all: half
	// a forearm.
	leastWay = 0.06
	// leastShare is the least that the lesser of both ways may be of the greater.
	leastShare = 0.5
	// leastLike is the least likeness: a half turn of a hand beside another that only
	// rises is no twin.
	leastLike = 0.85
	// farthest is the largest offset looked for, and pause the longest stillness within
	// one stretch, frames at 24 a second.
	farthest, pause = 8, 4
	customRate      = 24.0
)

// Find tells the stretches in which a and b, of one length, are twins.
func Find(a, b Path, rate float64) []Twin {
	lost := make([]bool, len(a.X))
	for i := range lost {
		lost[i] = math.IsNaN(a.X[i]) || math.IsNaN(b.X[i])
	}
	a, b = a.without(lost), b.without(lost)
	gap := max(1, int(math.Round(pause*rate/customRate)))
	reach := max(2, int(math.Round(farthest*rate/customRate)))
	var list []Twin
	for start := 0; start < len(a.X); start++ {
		if !moves(a, b, start) {
			continue
		}
		end := start
		for i := start + 1; i < len(a.X) && i <= end+gap+1; i++ {
			if moves(a, b, i) {
				end = i
			}
		}
		// What is lost on the way looks as if both had stopped at once. The first frame
		// has none before it.
		if slices.Contains(lost[max(1, start-gap):min(len(lost), end+gap+1)], true) {
			start = end
			continue
		}
		if t, ok := twin(a.cut(start, end), b.cut(start, end), reach); ok {
			t.Start, t.End = start, end
			list = append(list, t)
		}
		start = end
	}
	return list
}

// without is p with no way on some frames.
func (p Path) without(lost []bool) Path {
	q := Path{make([]float64, len(p.X)), make([]float64, len(p.X))}
	for i := range p.X {
		if !lost[i] {
			q.X[i], q.Y[i] = p.X[i], p.Y[i]
		}
	}
	return q
}

func (p Path) cut(start, end int) Path { return Path{p.X[start : end+1], p.Y[start : end+1]} }

func (p Path) step(i int) float64 { return math.Hypot(p.X[i], p.Y[i]) }

func moves(a, b Path, i int) bool { return a.step(i) >= stirs || b.step(i) >= stirs }

// length is how far the part goes in all.
func (p Path) length() (sum float64) {
	for i := range p.X {
		sum += p.step(i)
	}
	return sum
}

// power is the sum of its squares.
func (p Path) power() (sum float64) {
	for i := range p.X {
		sum += p.X[i]*p.X[i] + p.Y[i]*p.Y[i]
	}
	return sum
}

// Power is the sum of the squares of a way over a stretch.
func (p Path) Power(t Twin) float64 { return p.cut(t.Start, t.End).power() }

// twin holds two parts against each other over a stretch, at all offsets within
// reach.
func twin(a, b Path, reach int) (Twin, bool) {
	la, lb := a.length(), b.length()
	if min(la, lb) < leastWay || min(la, lb) < leastShare*max(la, lb) {
		return Twin{}, false
	}
	best := Twin{}
	for _, w := range []struct {
		way  string
		sign float64
	}{{Parallel, 1}, {Mirrored, -1}} {
		like, offset := peak(a, b, w.sign, reach)
		// A tie is a way straight up or down: that is parallel.
		if like > best.Likeness+1e-9 {
			best = Twin{Way: w.way, Likeness: like, Offset: offset}
		}
	}
	return best, best.Likeness >= leastLike
}

// peak is the offset, to a fraction of a frame, at which b is most like a: the top of
// a parabola through the best correlation and its neighbours.
func peak(a, b Path, sign float64, reach int) (like, offset float64) {
	norm := math.Sqrt(a.power() * b.power())
	all := make([]float64, 2*reach+1)
	best := 0
	for k := range all {
		all[k] = product(a, b, sign, k-reach) / norm
		if all[k] > all[best] {
			best = k
		}
	}
	like, offset = all[best], float64(best-reach)
	if best > 0 && best+1 < len(all) {
		before, after := all[best-1], all[best+1]
		if d := before - 2*like + after; d < 0 {
			shift := (before - after) / (2 * d)
			offset += shift
			like -= (before - after) * shift / 4
		}
	}
	return min(1, like), offset
}

// product is the sum of products of both ways with b so many frames later, its left
// and right turned round for a sign of -1.
func product(a, b Path, sign float64, lag int) (sum float64) {
	for i := range a.X {
		if k := i + lag; k >= 0 && k < len(b.X) {
			sum += sign*a.X[i]*b.X[k] + a.Y[i]*b.Y[k]
		}
	}
	return sum
}

// Settings are the thresholds that decide what twins are.
func Settings() map[string]any {
	return map[string]any{
		"twin_stir_share":  stirs,
		"twin_least_way":   leastWay,
		"twin_least_share": leastShare,
		"twin_least_like":  leastLike,
	}
}
