package feet

import "math"

// agreeSoles is how far apart, in soles, what was found and a marked foot that
// stands may be to be one stand.
const agreeSoles = 1.0

// confirm takes for the stands of marked feet what was found of them: that knows
// heel and toe, of which a point on the foot tells but one. The nearest go
// together first; where nothing like a stand was found it is left as it is.
func (w *walker) confirm(told, found []Contact) {
	done, used := make([]bool, len(told)), make([]bool, len(found))
	for {
		best, which, least := -1, -1, agreeSoles
		for i := range told {
			for k := range found {
				if done[i] || used[k] {
					continue
				}
				if d := w.between(told[i], found[k]); d <= least {
					best, which, least = i, k, d
				}
			}
		}
		if best < 0 {
			return
		}
		told[best] = found[which]
		done[best], used[which] = true, true
	}
}

// between is how far apart two contacts are when the later of them starts, soles;
// infinite where less than half of the first falls into the second or they stand at
// two levels.
func (w *walker) between(a, b Contact) float64 {
	if n := min(a.End, b.End) - max(a.Start, b.Start) + 1; 2*n <= a.End-a.Start+1 {
		return math.Inf(1)
	}
	t := max(a.Start, b.Start)
	x, y := w.where(a, t)
	u, v := w.where(b, t)
	if math.Abs(v-y) > soleLevel*w.tallIn(t) {
		return math.Inf(1)
	}
	return math.Hypot(u-x, v-y) / (w.sole * w.tallIn(t))
}

// where is the place of a contact in frame t.
func (w *walker) where(c Contact, t int) (x, y float64) {
	dx, dy := w.still(c.Start, t, c.X, c.Y)
	return c.X + dx + c.Slip*float64(t-c.Start)/float64(max(1, c.End-c.Start)), c.Y + dy
}
